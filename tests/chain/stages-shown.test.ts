import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { stagesShown } from '../../src/chain/stages-shown.ts'
import { captureSchema, engineSchema } from '../../src/job/schema.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { EXPORTS } from '../onboard/raw-exports.ts'

/** One recording of an engine with a lean cylinder, and one of it in order, by names that say nothing. */
const NAMES = ['captures/scope_2.csv', 'captures/scope_1.csv'] as const
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-stages-'))
  EXPORTS.plain().forEach(({ bytes }, i) => writeFileSync(join(work, `${i}.csv`), bytes))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const engine = engineSchema.parse({
  cylinders: 4,
  firing_order: [1, 3, 4, 2],
  ignition: 'distributor',
  fuel: 'E10',
})
const entry = (file: string, condition: string) =>
  captureSchema.parse({
    file,
    stage: 'before',
    condition,
    engine: 'warm',
    taken: '2026-03-04T09:12:00Z',
    time: { column: 'time_s', unit: 's' },
    channels: [
      { column: 'secondary_kv', carries: 'secondary', cylinders: 'all', unit: 'kV' },
      { column: 'sync_v', carries: 'sync', cylinder: 1, unit: 'V' },
    ],
  })
const shown = (conditions: readonly [string, string]) =>
  stagesShown(
    { captures: NAMES.map((file, i) => entry(file, conditions[i]!)), engine },
    {
      files: new Map(NAMES.map((file, i) => [file, join(work, `${i}.csv`)])),
      reading: readingLimits(),
      texts: loadTexts('en'),
    },
  )

test('the recording that is level where the other is not looks repaired, whatever its name', async () =>
  expect([...(await shown(['idle', 'idle']))]).toEqual([[NAMES[1], NAMES[0]]]))

test('recordings of other conditions are not held against each other', async () =>
  expect([...(await shown(['idle', 'cruise']))]).toEqual([]))
