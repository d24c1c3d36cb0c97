import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readCapture } from '../capture/read-capture.ts'
import { readJob } from '../job/read-job.ts'
import type { KnownCapture } from './known-capture.ts'

/** Folders of captures made with a circuit simulator; nobody tuned them to this program. They ship with the package. */
const FOLDERS = ['a-four-level', 'c-eight-cyl5-lean', 'e-four-wasted-leads'] as const
const ROOT = fileURLToPath(new URL('../../tests/fixtures/captures/', import.meta.url))

/** The truth files as the simulation wrote them. */
interface Truth {
  events: readonly {
    file: string
    channel: string
    cylinder: number
    kind: 'event' | 'wasted'
    complete: boolean
    t_breakdown_s: number
    burn_ms: number
    mid_kv: number
    late_rise_kv: number
  }[]
  cylinders: readonly { cylinder: number; accept: readonly string[] }[]
}

/** Reads them all, through the same reader as any job. */
export async function circuitCaptures(): Promise<KnownCapture[]> {
  const known: KnownCapture[] = []
  for (const folder of FOLDERS) {
    const { job, files } = await readJob(ROOT + folder)
    const truth = JSON.parse(readFileSync(`${ROOT}truth/${folder}.json`, 'utf8')) as Truth
    const accept = new Map(truth.cylinders.map((c) => [c.cylinder, c.accept]))
    for (const entry of job.captures) {
      const capture = await readCapture(files.get(entry.file)!, entry)
      const events = truth.events
        .filter((e) => e.file === entry.file)
        .map((e) => ({
          channel: entry.channels.findIndex((c) => c.column === e.channel),
          cylinder: e.cylinder,
          kind: e.kind === 'wasted' ? ('wasted' as const) : ('firing' as const),
          breakdownS: e.t_breakdown_s,
          complete: e.complete,
          burnMs: e.burn_ms,
          midKv: e.mid_kv,
          lateRiseKv: e.late_rise_kv,
        }))
      known.push({
        name: `${folder}, ${entry.file}`,
        origin: 'circuit simulation',
        capture,
        engine: job.engine,
        events,
        accept,
      })
    }
  }
  return known
}
