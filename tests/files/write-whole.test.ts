import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { clearLeftovers } from '../../src/files/leftovers.ts'
import { writeWhole } from '../../src/files/write-whole.ts'

/** What makes a folder one of ours. */
const manifest = (made: string) =>
  ['manifest.json', JSON.stringify({ program: { name: 'burnline' }, made })] as const

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-write-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

test('writes files in folders and leaves nothing beside', async () => {
  await writeWhole(
    join(root, 'out', 'A-1'),
    new Map<string, string | Uint8Array>([
      ['a.txt', 'one'],
      ['charts/b.svg', Buffer.from('two')],
    ]),
  )
  expect(readFileSync(join(root, 'out', 'A-1', 'charts', 'b.svg'), 'utf8')).toBe('two')
  expect(readdirSync(join(root, 'out'))).toEqual(['A-1'])
})

test('replaces an older folder whole: no file of the old one stays', async () => {
  const target = join(root, 'A-1')
  await writeWhole(target, new Map([['old.txt', 'old'], manifest('first')]))
  await writeWhole(target, new Map([['new.txt', 'new'], manifest('second')]))
  expect(readdirSync(target).sort()).toEqual(['manifest.json', 'new.txt'])
  expect(readdirSync(root)).toEqual(['A-1'])
})

test('a target that cannot be written is a problem with a code, and what stood there stays', async () => {
  const file = join(root, 'file')
  writeFileSync(file, 'in the way')
  await expect(writeWhole(join(file, 'A-1'), new Map([['a.txt', 'x']]))).rejects.toMatchObject({
    problems: [{ code: 'cannot-write' }],
  })
  expect(readFileSync(file, 'utf8')).toBe('in the way')
})

test.skipIf(process.getuid?.() === 0)('a read-only folder gives cannot-write', async () => {
  const closed = join(root, 'closed')
  mkdirSync(closed)
  chmodSync(closed, 0o500)
  await expect(writeWhole(join(closed, 'A-1'), new Map([['a.txt', 'x']]))).rejects.toMatchObject({
    problems: [{ code: 'cannot-write' }],
  })
  expect(existsSync(join(closed, 'A-1'))).toBe(false)
})

test('a folder, or a file, that this program did not make is left alone', async () => {
  const target = join(root, 'A-1')
  mkdirSync(target)
  writeFileSync(join(target, 'letter.txt'), 'mine')
  await expect(writeWhole(target, new Map([['a.txt', 'x']]))).rejects.toMatchObject({
    problems: [{ code: 'output-exists' }],
  })
  writeFileSync(join(root, 'A-2'), 'mine')
  await expect(writeWhole(join(root, 'A-2'), new Map([['a.txt', 'x']]))).rejects.toMatchObject({
    problems: [{ code: 'output-exists' }],
  })
  expect(readFileSync(join(target, 'letter.txt'), 'utf8')).toBe('mine')
  expect(readdirSync(root).sort()).toEqual(['A-1', 'A-2'])
})

test('an empty folder may be taken', async () => {
  mkdirSync(join(root, 'A-1'))
  await writeWhole(join(root, 'A-1'), new Map([['a.txt', 'x']]))
  expect(readdirSync(join(root, 'A-1'))).toEqual(['a.txt'])
})

test('many writers of one folder at once, and one who clears away beside them, end with one complete result', async () => {
  const target = join(root, 'A-1')
  const write = (turn: number) =>
    writeWhole(
      target,
      new Map([
        ...Array.from({ length: 10 }, (_, i) => [`charts/${i}.svg`, `by ${turn}`] as const),
        manifest(`by ${turn}`),
      ]),
    )
  await write(0)
  await Promise.all([
    ...Array.from({ length: 6 }, (_, i) => write(i + 1)),
    ...Array.from({ length: 4 }, () => clearLeftovers(root, 'own')),
  ])
  await clearLeftovers(root, 'own')
  expect(readdirSync(root)).toEqual(['A-1'])
  const { made } = JSON.parse(readFileSync(join(target, 'manifest.json'), 'utf8')) as { made: string }
  const charts = readdirSync(join(target, 'charts'))
  expect(charts).toHaveLength(10)
  for (const chart of charts) expect(readFileSync(join(target, 'charts', chart), 'utf8')).toBe(made)
})
