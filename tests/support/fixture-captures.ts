import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Capture } from '../../src/capture/capture.ts'
import { readCapture } from '../../src/capture/read-capture.ts'
import type { Engine } from '../../src/job/schema.ts'
import { readJob } from '../../src/job/read-job.ts'

/**
 * Captures made with a circuit simulator (coupled coil, driver, spark gap with a falling volt-ampere law), then sampled,
 * quantised and given noise; all data invented, the truth beside them. Nobody tuned them to this program.
 */
export const FIXTURES = ['a-four-level', 'c-eight-cyl5-lean', 'e-four-wasted-leads'] as const
/** Captures of a second set by other circuits: six coil families, other gap laws, hash, scatter, real recorders' faults. */
export const FURTHER_FIXTURES = [
  'd-four-coil-cyl2-rich',
  '02-four-lean-hunt-0.5s',
  '08-four-level-hunt-clamp',
  '16-four-files-cyl2-rich',
  '18-four-fouled',
  '25-six-level-ac10-8bit',
  '26-four-cyl3-blowout-restrike',
  '27-six-bank1-lean-2500',
  '30-six-lean-frames',
  '31-four-engine-off-then-idle',
] as const
export type FixtureName = (typeof FIXTURES)[number] | (typeof FURTHER_FIXTURES)[number]

/** Truth of one event as the simulation states it; times on the capture's own clock. */
export interface TruthEvent {
  file: string
  channel: string
  cylinder: number
  kind: 'event' | 'wasted'
  complete: boolean
  t_dwell_s: number
  t_breakdown_s: number
  t_end_s: number
  vbd_kv: number
  burn_ms: number
  mid_kv: number
  late_kv: number
  late_rise_kv: number
}

const ROOT = fileURLToPath(new URL('../fixtures/captures/', import.meta.url))

/** Every capture of a fixture with its engine and the truth of its events. */
export async function readFixture(
  name: FixtureName,
): Promise<{ engine: Engine; captures: { capture: Capture; truth: TruthEvent[] }[] }> {
  const { job, files } = await readJob(ROOT + name)
  const { events } = JSON.parse(readFileSync(`${ROOT}truth/${name}.json`, 'utf8')) as { events: TruthEvent[] }
  const captures = await Promise.all(
    job.captures.map(async (entry) => ({
      capture: await readCapture(files.get(entry.file)!, entry),
      truth: events.filter((e) => e.file === entry.file),
    })),
  )
  return { engine: job.engine, captures }
}

/** The first capture of a fixture alone. */
export async function readFirstOf(
  name: FixtureName,
): Promise<{ engine: Engine; capture: Capture; truth: TruthEvent[] }> {
  const { engine, captures } = await readFixture(name)
  return { engine, ...captures[0]! }
}
