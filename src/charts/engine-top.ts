import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { ACCENT, INK, PAPER, QUIET, STRONG } from './theme.ts'
import { liteSpec, raw } from './vega-lite.ts'
import { cylindersWords } from './words.ts'

const COLUMN_PT = 34
const ROW_PT = 26
/** Most height for one bank, so that the picture stands beside another. */
const MOST_PT = 150
const HEAD_PT = 14

/** Cylinders with something out of order, or too near a limit to say, as found. */
export function oddCylinders({ conclusion, job }: Result): number[] {
  const odd = new Set(
    conclusion.findings
      .filter((f) => f.state === 'as found' && (f.order === 'out of order' || f.order === 'unsure'))
      .flatMap(({ where }) => where.cylinders),
  )
  return Array.from({ length: job.engine.cylinders }, (_, i) => i + 1).filter((cylinder) => odd.has(cylinder))
}

/** The engine from above: cylinders in a row, or in one row a bank, by their numbers; those not in order as found are dark. */
export function engineFromAbove(result: Result, texts: Texts): ChartPlan {
  const { engine } = result.job
  const banks = Object.entries(engine.banks ?? {})
  const rows: readonly (readonly [string, readonly number[]])[] =
    banks.length > 0 ? banks : [['', Array.from({ length: engine.cylinders }, (_, i) => i + 1)]]
  const longest = Math.max(...rows.map(([, cylinders]) => cylinders.length))
  const rowPt = Math.min(ROW_PT, MOST_PT / longest)
  const odd = oddCylinders(result)
  const bankName = (bank: string) => (bank === '' ? '' : say(texts, 'report.ccc.bank', { bank }))
  const values = rows.flatMap(([bank, cylinders]) =>
    cylinders
      .toSorted((a, b) => a - b)
      .map((cylinder, i) => ({
        bank: bankName(bank),
        place: i + 1,
        cylinder: String(cylinder),
        fill: odd.includes(cylinder) ? ACCENT : PAPER,
        ink: odd.includes(cylinder) ? PAPER : INK,
      })),
  )
  const width = Math.max(COLUMN_PT * rows.length, 64)
  const height = rowPt * longest
  const who = cylindersWords(texts, odd)
  return {
    id: 'engine-from-above',
    place: 'customer',
    title: say(texts, odd.length > 0 ? 'chart.top.title' : 'chart.top.title-none'),
    alt:
      odd.length > 0
        ? say(texts, 'chart.top.alt', { cylinders: engine.cylinders, who })
        : say(texts, 'chart.top.alt-none', { cylinders: engine.cylinders }),
    widthPt: width + 8,
    heightPt: height + HEAD_PT + 4,
    spec: liteSpec(texts.language, {
      autosize: { type: 'none' },
      padding: { left: 4, right: 4, top: HEAD_PT, bottom: 4 },
      width,
      height,
      data: { name: 'cylinders', values },
      encoding: {
        x: {
          field: 'bank',
          type: 'nominal',
          sort: null,
          scale: { type: 'point', padding: 0.5 },
          axis: { orient: 'top', title: null, domain: false, ticks: false, labelAngle: 0, labelColor: QUIET },
        },
        y: {
          field: 'place',
          type: 'quantitative',
          scale: { domain: [longest + 0.5, 0.5], nice: false, zero: false },
          axis: null,
        },
      },
      layer: [
        {
          mark: {
            type: 'point',
            shape: 'circle',
            size: (rowPt - 5) ** 2,
            opacity: 1,
            stroke: INK,
            strokeWidth: 1,
          },
          encoding: { fill: raw('fill') },
        },
        {
          mark: { type: 'text', fontWeight: STRONG },
          encoding: { text: { field: 'cylinder' }, color: raw('ink') },
        },
      ],
    }),
  }
}
