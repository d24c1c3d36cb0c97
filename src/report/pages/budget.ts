import type { CylinderRecord } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput } from './page-input.ts'

/** Parts of an uncertainty in the order they are told: what the engine does first, then what the recorder does. */
const WORDS = {
  scatter: 'report.budget.scatter',
  captures: 'report.budget.captures',
  noise: 'report.budget.noise',
  sampling: 'report.budget.sampling',
  quantisation: 'report.budget.quantisation',
  zero: 'report.budget.zero',
  pickup: 'report.budget.pickup',
  method: 'report.budget.method',
  instrument: 'report.budget.instrument',
} as const
const SOURCES = Object.keys(WORDS) as (keyof typeof WORDS)[]

type Present = Extract<CylinderRecord['figures'][string], { value: number }>
interface Row {
  mark: string
  figure: Present
}

/** Where the uncertainty of the late rise comes from, for the least sure cylinder of every recording; nothing where none has one. */
export function budgetBlocks({ result, texts }: PageInput): Block[] {
  const rows: Row[] = []
  for (const capture of new Set(result.cylinders.map((c) => c.capture))) {
    const of = result.cylinders.flatMap(({ mark, figures, capture: file }): Row[] => {
      const figure = figures['late_rise_pct']
      return file === capture && figure && 'value' in figure ? [{ mark, figure }] : []
    })
    const width = ({ figure }: Row) => figure.high - figure.low
    if (of.length > 0) rows.push(of.reduce((most, row) => (width(row) > width(most) ? row : most)))
  }
  const partOf = ({ budget }: Present, source: string) => budget.find((line) => line.source === source)?.u
  const sources = SOURCES.filter((source) => rows.some(({ figure }) => partOf(figure, source) !== undefined))
  if (rows.length === 0) return []
  const number = (value: number | undefined) =>
    value === undefined ? '\u2013' : formatNumber(value, 2, texts.language)
  const caption = say(texts, 'report.method.budget')
  return [
    paragraph(say(texts, 'report.method.budget-text'), { gapPt: 2, keepWithNext: true }),
    table({
      caption,
      dense: true,
      size: 'fine',
      columns: [
        { title: say(texts, 'report.column.mark'), grow: 0 },
        ...sources.map((source) => ({ title: say(texts, WORDS[source]), grow: 1, align: 'right' as const })),
        { title: say(texts, 'report.method.budget-half'), grow: 1, align: 'right' },
      ],
      rows: rows.map(({ mark, figure }) => [
        mark,
        ...sources.map((source) => number(partOf(figure, source))),
        number((figure.high - figure.low) / 2),
      ]),
    }),
  ]
}
