import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readCapture } from '../capture/read-capture.ts'
import { median } from '../maths/median.ts'
import { readJob } from '../job/read-job.ts'
import type { KnownCapture } from './known-capture.ts'

/**
 * Folders of captures made with circuit simulators; nobody tuned them to this program. They ship with the package. Beside
 * whole records of three engines: an idle that hunts, four files with missed tops, an AC-coupled pickup at 8 bits and a
 * bank lean at 2500 rpm.
 */
const FOLDERS = [
  'a-four-level',
  'c-eight-cyl5-lean',
  'e-four-wasted-leads',
  '02-four-lean-hunt-0.5s',
  '16-four-files-cyl2-rich',
  '25-six-level-ac10-8bit',
  '27-six-bank1-lean-2500',
] as const
const ROOT = fileURLToPath(new URL('../../tests/fixtures/captures/', import.meta.url))

/** Verdicts in the simulation's words that have other names here. */
const VERDICTS: Readonly<Record<string, readonly string[]>> = {
  'rich-or-low-compression': ['falling', 'rich', 'low compression'],
  'high-resistance': ['external resistance'],
  'open-secondary': ['open secondary'],
}

/** The truth files as the simulation wrote them. */
interface Truth {
  /** What the recorder made of a kV, inside its stated uncertainty; stated where recorder and pickup have real flaws. */
  files?: Readonly<Record<string, { gain?: number }>>
  events: readonly {
    file: string
    channel?: string
    cylinder: number
    kind: 'event' | 'wasted'
    complete: boolean
    idle?: boolean
    t_breakdown_s: number
    burn_ms: number | null
    mid_kv: number | null
    late_rise_kv: number | null
  }[]
  cylinders: readonly { cylinder: number; accept: readonly string[] }[]
}

/** Reads them all, through the same reader as any job. */
export async function circuitCaptures(): Promise<KnownCapture[]> {
  const known: KnownCapture[] = []
  for (const folder of FOLDERS) {
    const { job, files } = await readJob(ROOT + folder)
    const truth = JSON.parse(readFileSync(`${ROOT}truth/${folder}.json`, 'utf8')) as Truth
    const accept = new Map(
      truth.cylinders.map((c) => [c.cylinder, c.accept.flatMap((v) => VERDICTS[v] ?? [v])]),
    )
    for (const entry of job.captures) {
      const capture = await readCapture(files.get(entry.file)!, entry)
      const { gain } = truth.files?.[entry.file] ?? {}
      const shown = (kv: number | null): number | undefined => (kv === null ? undefined : (gain ?? 1) * kv)
      const only = entry.channels.findIndex((c) => c.carries === 'secondary')
      const events = truth.events
        .filter((e) => e.file === entry.file)
        .map((e) => ({
          channel: e.channel === undefined ? only : entry.channels.findIndex((c) => c.column === e.channel),
          cylinder: e.cylinder,
          kind: e.kind === 'wasted' ? ('wasted' as const) : ('firing' as const),
          breakdownS: e.t_breakdown_s,
          complete: e.complete,
          burnMs: e.burn_ms ?? undefined,
          midKv: shown(e.mid_kv),
          lateRiseKv: shown(e.late_rise_kv),
        }))
      known.push({
        name: `${folder}, ${entry.file}`,
        origin: 'circuit simulation',
        capture,
        engine: job.engine,
        events,
        accept,
        risesPct: risesOf(truth.events.filter((e) => e.file === entry.file)),
        realRecorder: gain !== undefined,
      })
    }
  }
  return known
}

/** Shorter arcs are no spark lines, ms. */
const LEAST_BURN_MS = 0.35

/** True median late rise of every cylinder's spark lines, %. */
function risesOf(events: Truth['events']): Map<number, number> {
  const lines = events.flatMap((e) =>
    e.complete && e.kind === 'event' && e.idle !== false && e.burn_ms !== null && e.burn_ms > LEAST_BURN_MS
      ? [{ cylinder: e.cylinder, pct: (100 * e.late_rise_kv!) / e.mid_kv! }]
      : [],
  )
  return new Map(
    [...new Set(lines.map((l) => l.cylinder))].map((cylinder) => [
      cylinder,
      median(lines.flatMap((l) => (l.cylinder === cylinder ? l.pct : [])))!,
    ]),
  )
}
