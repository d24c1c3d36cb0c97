import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { digestFile } from '../../src/files/digest-file.ts'
import { openStore, pruneStore } from '../../src/chain/measured-store.ts'

let root: string
let file: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-store-'))
  file = join(root, 'capture.csv')
  writeFileSync(file, 'time,kv\n0,1\n')
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const cache = () => join(root, 'cache')
const entryFiles = () =>
  readdirSync(cache(), { recursive: true, encoding: 'utf8' })
    .filter((f) => f.includes('-'))
    .map((f) => join(cache(), f))
const ENTRY = { figures: new Float64Array([1, -0, Infinity]), absent: undefined, words: 'kV' }

test('an entry comes back exactly, for the same key and the same bytes only', async () => {
  const store = openStore(cache())
  store.keep(['key'], await digestFile(file), ENTRY)
  expect(await store.find(['key'], file)).toEqual(ENTRY)
  expect(await store.find(['other'], file)).toBeUndefined()
  writeFileSync(file, 'time,kv\n0,2\n')
  expect(await store.find(['key'], file)).toBeUndefined()
  writeFileSync(file, 'time,kv\n0,1\n')
  expect(await store.find(['key'], file)).toEqual(ENTRY)
})

test('an entry with any byte changed, or cut short, counts as not there', async () => {
  const store = openStore(cache())
  store.keep('key', await digestFile(file), ENTRY)
  const [path] = entryFiles()
  const whole = readFileSync(path!)
  for (let at = 0; at < whole.length; at++) {
    const damaged = Buffer.from(whole)
    damaged[at] = damaged[at]! ^ 1
    writeFileSync(path!, damaged)
    expect(await store.find('key', file), `byte ${at}`).toBeUndefined()
  }
  for (const length of [0, 10, 32, whole.length - 1]) {
    writeFileSync(path!, whole)
    truncateSync(path!, length)
    expect(await store.find('key', file), `${length} bytes`).toBeUndefined()
  }
})

test('a store that cannot be written keeps nothing and harms nothing', async () => {
  const store = openStore(file)
  store.keep('key', await digestFile(file), ENTRY)
  expect(await store.find('key', file)).toBeUndefined()
})

test('the store is bounded, and half-written entries go', async () => {
  const store = openStore(cache())
  for (let i = 0; i < 20; i++) store.keep(i, await digestFile(file), { i, filling: Buffer.alloc(100, i) })
  writeFileSync(join(cache(), readdirSync(cache())[0]!, 'new-left-by-a-killed-run'), 'half')
  const bytes = entryFiles()
    .filter((f) => !f.includes('new-'))
    .reduce((sum, f) => sum + readFileSync(f).length, 0)
  pruneStore(cache(), bytes / 2)
  const left = entryFiles()
  expect(left.some((f) => f.includes('new-'))).toBe(false)
  expect(left.length).toBeGreaterThanOrEqual(8)
  expect(left.reduce((sum, f) => sum + readFileSync(f).length, 0)).toBeLessThanOrEqual(bytes / 2)
})

test('a link in its place, or in that of a folder in it, leads nothing elsewhere; only its own entries ever go', async () => {
  const elsewhere = join(root, 'elsewhere')
  const kept = join(elsewhere, 'ab', 'new-and-mine')
  mkdirSync(join(elsewhere, 'ab'), { recursive: true })
  writeFileSync(kept, 'kept')
  symlinkSync(elsewhere, cache())
  openStore(cache()).keep('key', await digestFile(file), ENTRY)
  pruneStore(cache(), 0)
  expect([readdirSync(elsewhere), existsSync(kept)]).toEqual([['ab'], true])
  rmSync(cache())
  mkdirSync(join(cache(), 'cd'), { recursive: true })
  symlinkSync(join(elsewhere, 'ab'), join(cache(), 'ab'))
  writeFileSync(join(cache(), 'cd', 'notes.txt'), 'kept')
  pruneStore(cache(), 0)
  expect([existsSync(kept), existsSync(join(cache(), 'cd', 'notes.txt'))]).toEqual([true, true])
})
