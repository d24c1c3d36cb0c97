import type { FigureName } from '../metrics/figures.ts'
import { APART_WORDS } from '../verdicts/apart/apart-finding.ts'
import { CYLINDER_FIGURES, FIGURE_COLUMNS } from './columns.ts'
import { rounded, toCsv, type Cell } from './csv.ts'
import type { CylinderRecord, Result } from './result.ts'

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
    'condition',
    'basis',
    'apart',
    'against_fellows',
    'against_fellows_low',
    'against_fellows_high',
    'left_out',
    'firing_known',
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
      c.condition ?? null,
      c.basis,
      apartWords(c),
      ...cells(c.against_fellows, { figure: 'lateRisePct', interval: true }),
      c.left_out,
      firingKnown(c.figures[FIGURE_COLUMNS.firingKv.column]),
    ]),
  )
}

/** What stands apart, in the records' words, each once. */
const apartWords = ({ apart }: CylinderRecord): string | null =>
  apart.length === 0 ? null : [...new Set(apart.map((a) => APART_WORDS[a.figure][a.direction]))].join('; ')

/** How the firing voltage is known: a lower bound alone where the recorder cut off or missed the tops. */
function firingKnown(figure: CylinderRecord['figures'][string] | undefined): string | null {
  if (figure === undefined) return null
  if ('absent' in figure) return figure.at_least === undefined ? null : 'lower bound'
  return figure.extrapolated_from === undefined ? 'measured' : 'extrapolated'
}

type Wanted = (typeof CYLINDER_FIGURES)[number]

function columnNames({ figure, interval }: Wanted): string[] {
  const { column } = FIGURE_COLUMNS[figure]
  return interval ? [column, `${column}_low`, `${column}_high`] : [column]
}

function cells(
  figure:
    | { value: number; low: number; high: number }
    | { absent: string; at_least?: number | undefined }
    | undefined,
  { figure: name, interval }: { figure: FigureName; interval: boolean },
): Cell[] {
  const { decimals } = FIGURE_COLUMNS[name]
  const here = figure && !('absent' in figure) ? figure : undefined
  const value = rounded(here?.value, decimals)
  // A one-sided bound leaves the other side empty.
  const bound = figure && 'absent' in figure ? figure.at_least : undefined
  return interval ? [value, rounded(here?.low ?? bound, decimals), rounded(here?.high, decimals)] : [value]
}
