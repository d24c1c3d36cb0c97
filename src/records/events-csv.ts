import { EVENT_FIGURES, FIGURE_COLUMNS } from './columns.ts'
import { rounded, toCsv } from './csv.ts'
import type { EventRow } from './event-row.ts'

/** events.csv: one row per ignition event. */
export function eventsCsv(events: readonly EventRow[]): string {
  const columns = [
    'stage',
    'capture',
    'cylinder',
    'event',
    't_s',
    ...EVENT_FIGURES.map((f) => FIGURE_COLUMNS[f].column),
    'class',
    'flags',
    'frame',
    'firing_kv_at_least',
  ]
  return toCsv(
    columns,
    events.map((e) => [
      e.stage,
      e.capture,
      e.cylinder ?? null,
      e.event,
      rounded(e.breakdownS, 7),
      ...EVENT_FIGURES.map((f) => rounded(e.figures[f], FIGURE_COLUMNS[f].decimals)),
      e.class,
      e.flags.join(' '),
      e.frame ?? null,
      rounded(e.firingAtLeastKv, FIGURE_COLUMNS.firingKv.decimals),
    ]),
  )
}
