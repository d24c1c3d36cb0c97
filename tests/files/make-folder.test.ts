import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeFolder, makeFolderSync } from '../../src/files/make-folder.ts'

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-folder-'))
})
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

test('at once: the same', () => {
  makeFolderSync(join(work, 'd', 'e'))
  makeFolderSync(join(work, 'd', 'e'))
  expect(statSync(join(work, 'd', 'e')).isDirectory()).toBe(true)
  if (existsSync('/proc')) expect(() => makeFolderSync('/proc/no-such/below')).toThrow('ENOENT')
})

test('many that make one folder at the same time all succeed', async () => {
  await Promise.all(Array.from({ length: 20 }, () => makeFolder(join(work, 'shared', 'by', 'all'))))
  expect(statSync(join(work, 'shared', 'by', 'all')).isDirectory()).toBe(true)
})
