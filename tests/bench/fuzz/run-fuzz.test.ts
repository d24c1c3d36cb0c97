import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { damageSmallJob } from './damage-job.ts'
import { readerNamed, READERS } from './fuzz-readers.ts'
import { caseOf, fuzzReader } from './run-fuzz.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'

/** Mutated inputs a reader; `npm run fuzz` reads 200 000 and begins with these. */
const CASES = 150
let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-fuzz-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const about = { texts: loadTexts('en'), nowMs: () => performance.now() }
const said = (findings: readonly { at: number; what: string }[]) => findings.map((f) => `${f.at}: ${f.what}`)

test.each(READERS)(
  'mutated inputs of %s end in a right reading, a flagged one, or a code',
  async (name) => {
    const { ends, findings } = await fuzzReader(readerNamed(name, folder), { from: 0, to: CASES }, about)
    expect(said(findings)).toEqual([])
    expect(ends.refused).toBeGreaterThan(0)
    expect(ends.right + ends.flagged).toBeGreaterThan(0)
  },
  60_000,
)

test('a small job cut here and there, and with bits turned', async () => {
  const { ends, findings } = await damageSmallJob(
    join(folder, 'small'),
    { flips: 40, captureStep: 1009, ownStep: 61 },
    about,
  )
  expect(said(findings)).toEqual([])
  expect(ends.refused).toBeGreaterThan(0)
  expect(ends.right + ends.flagged).toBeGreaterThan(0)
}, 60_000)

test('a case is the same in every run', () => {
  const reader = readerNamed('capture', folder)
  const bytes = (at: number): Buffer => caseOf(reader, at).bytes
  expect(bytes(7)).toEqual(bytes(7))
  expect(bytes(7)).not.toEqual(bytes(8))
})

test('an error without a code is a finding, not an end', async () => {
  const reader = readerNamed('capture', folder)
  const broken: typeof reader = {
    ...reader,
    draw: (random) => ({ ...reader.draw(random), read: () => Promise.reject(new TypeError('planted')) }),
  }
  const { findings } = await fuzzReader(broken, { from: 0, to: 3 }, about)
  expect(said(findings)).toEqual([0, 1, 2].map((at) => `${at}: error without a code: TypeError: planted`))
})
