import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { writeWhole } from '../../src/batch/write-whole.ts'

let root: string
beforeEach(() => { root = mkdtempSync(join(tmpdir(), 'burnline-write-')) })
afterEach(() => rmSync(root, { recursive: true, force: true }))

test('writes files in folders and leaves nothing beside', async () => {
  await writeWhole(join(root, 'out', 'A-1'), new Map<string, string | Uint8Array>([['a.txt', 'one'], ['charts/b.svg', Buffer.from('two')]]))
  expect(readFileSync(join(root, 'out', 'A-1', 'charts', 'b.svg'), 'utf8')).toBe('two')
  expect(readdirSync(join(root, 'out'))).toEqual(['A-1'])
})

test('replaces an older folder whole: no file of the old one stays', async () => {
  const target = join(root, 'A-1')
  await writeWhole(target, new Map([['old.txt', 'old']]))
  await writeWhole(target, new Map([['new.txt', 'new']]))
  expect(readdirSync(target)).toEqual(['new.txt'])
  expect(readdirSync(root)).toEqual(['A-1'])
})

test('a target that cannot be written is a problem with a code, and what stood there stays', async () => {
  const file = join(root, 'file')
  writeFileSync(file, 'in the way')
  await expect(writeWhole(join(file, 'A-1'), new Map([['a.txt', 'x']]))).rejects.toMatchObject({ problems: [{ code: 'cannot-write' }] })
  expect(readFileSync(file, 'utf8')).toBe('in the way')
})

test.skipIf(process.getuid?.() === 0)('a read-only folder gives cannot-write', async () => {
  const closed = join(root, 'closed')
  mkdirSync(closed)
  chmodSync(closed, 0o500)
  await expect(writeWhole(join(closed, 'A-1'), new Map([['a.txt', 'x']]))).rejects.toMatchObject({ problems: [{ code: 'cannot-write' }] })
  expect(existsSync(join(closed, 'A-1'))).toBe(false)
})
