import type { TopLevelSpec } from 'vega-lite'
import type { Result } from '../records/result.ts'
import { formatNumber } from '../texts/format-quantity.ts'
import type { Texts } from '../texts/messages.ts'
import { placeWords } from '../texts/place-words.ts'
import { say, wordOf } from '../texts/say.ts'
import { CAUSE_WORDS } from '../verdicts/causes/cause-kinds.ts'
import { VEGA_LITE_SCHEMA, type ChartPlan } from './chart-plan.ts'
import { FULL_WIDTH_PT, QUIET, STRONG, TEXT_PT, VEGA_LITE_CONFIG } from './theme.ts'
import { wrapText } from './wrap-text.ts'

const LABEL_PT = 190
const FIGURE_PT = 40
const LINE_PT = 10
const ROW_GAP_PT = 8
const BAR_PT = 8

const nameOf = (cause: Result['causes'][number], texts: Texts): string => {
  const name = wordOf(texts, CAUSE_WORDS, cause.id)
  return cause.place === null
    ? name
    : say(texts, 'chart.causes.at', { cause: name, place: placeWords(texts, cause.place) })
}

/** Standing of the causes as bars, the strongest on top; the weight of each is written beside its bar. */
export function causesStanding(causes: Result['causes'], texts: Texts): ChartPlan {
  const names = causes.map((cause) => wrapText(nameOf(cause, texts), LABEL_PT - 10, { sizePt: TEXT_PT }))
  const heights = names.map((lines) => lines.length * LINE_PT + ROW_GAP_PT)
  const percent = (cause: Result['causes'][number]) =>
    `${formatNumber(cause.probability * 100, 0, texts.language)}\u00a0%`
  const rows = causes.map((cause, i) => ({
    rank: i + 1,
    percent: cause.probability * 100,
    figure: percent(cause),
    y: heights.slice(0, i).reduce((sum, h) => sum + h, 0) + heights[i]! / 2,
  }))
  const lines = names.flatMap((words, i) =>
    words.map((line, j) => ({ line, y: rows[i]!.y + (j - (words.length - 1) / 2) * LINE_PT })),
  )
  const width = FULL_WIDTH_PT - LABEL_PT - FIGURE_PT
  const height = heights.reduce((sum, h) => sum + h, 0)
  const y = {
    field: 'y',
    type: 'quantitative',
    axis: null,
    scale: { domain: [height, 0], nice: false, zero: false },
  } as const
  const spec = {
    $schema: VEGA_LITE_SCHEMA,
    config: VEGA_LITE_CONFIG,
    autosize: { type: 'none' },
    padding: { left: LABEL_PT, right: FIGURE_PT, top: 2, bottom: 30 },
    width,
    height,
    layer: [
      {
        data: { name: 'causes', values: rows },
        mark: { type: 'rule', strokeWidth: BAR_PT, stroke: QUIET },
        encoding: {
          y,
          x2: { datum: 0 },
          x: {
            field: 'percent',
            type: 'quantitative',
            title: say(texts, 'chart.axis.standing'),
            scale: { domain: [0, 100], nice: false },
            axis: { values: [0, 20, 40, 60, 80, 100] },
          },
        },
      },
      {
        data: { name: 'causes', values: rows },
        mark: { type: 'text', align: 'left', dx: 5, fontWeight: STRONG },
        encoding: { y, x: { field: 'percent', type: 'quantitative' }, text: { field: 'figure' } },
      },
      {
        data: { name: 'names', values: lines },
        mark: { type: 'text', align: 'right' },
        encoding: { y, x: { value: -8 }, text: { field: 'line' } },
      },
    ],
  }
  const first = causes[0]!
  return {
    id: 'causes',
    spec: spec as unknown as TopLevelSpec,
    place: 'tests',
    title: say(texts, 'chart.causes.title'),
    alt: say(texts, 'chart.causes.alt', {
      causes: causes.length,
      first: nameOf(first, texts),
      percent: percent(first),
    }),
    widthPt: FULL_WIDTH_PT,
    heightPt: height + 32,
  }
}
