import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeFolder } from '../../src/batch/make-folder.ts'

let work: string
beforeAll(() => { work = mkdtempSync(join(tmpdir(), 'burnline-folder-')) })
afterAll(() => rmSync(work, { recursive: true, force: true }))

test('every level is made; what is there is kept', async () => {
  await makeFolder(join(work, 'a', 'b', 'c'))
  await makeFolder(join(work, 'a', 'b', 'c'))
  expect(statSync(join(work, 'a', 'b', 'c')).isDirectory()).toBe(true)
})

test('a file where a folder is needed is an error', async () => {
  writeFileSync(join(work, 'file'), '')
  await expect(makeFolder(join(work, 'file', 'below'))).rejects.toMatchObject({ code: 'ENOTDIR' })
})

test.skipIf(!existsSync('/proc'))('where nothing can be made it ends', async () => {
  await expect(makeFolder('/proc/no-such/below')).rejects.toMatchObject({ code: 'ENOENT' })
})
