import { CYLINDER_FIGURES, FIGURE_COLUMNS } from './columns.ts'
import { rounded, toCsv, type Cell } from './csv.ts'
import type { FigureRecord, Result } from './result.ts'

/** cylinders.csv: one row per stage, capture and cylinder. */
export function cylindersCsv(result: Result): string {
  const columns = [
    'stage',
    'capture',
    'cylinder',
    'verdict',
    'reason',
    'events',
    'misfires',
    ...CYLINDER_FIGURES.flatMap(columnNames),
  ]
  return toCsv(
    columns,
    result.cylinders.map((c) => [
      c.stage,
      c.capture,
      c.cylinder,
      c.verdict,
      c.reason.text,
      c.events,
      c.misfires,
      ...CYLINDER_FIGURES.flatMap((f) => cells(c.figures[FIGURE_COLUMNS[f.figure].column], f)),
    ]),
  )
}

type Wanted = (typeof CYLINDER_FIGURES)[number]

function columnNames({ figure, interval }: Wanted): string[] {
  const { column } = FIGURE_COLUMNS[figure]
  return interval ? [column, `${column}_low`, `${column}_high`] : [column]
}

function cells(figure: FigureRecord | undefined, { figure: name, interval }: Wanted): Cell[] {
  const { decimals } = FIGURE_COLUMNS[name]
  const here = figure && !('absent' in figure) ? figure : undefined
  const value = rounded(here?.value, decimals)
  return interval ? [value, rounded(here?.low, decimals), rounded(here?.high, decimals)] : [value]
}
