import { formatArg } from '../texts/format-quantity.ts'
import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { intervalRows, type IntervalRow } from './interval-rows.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'
import { riseWords } from './rise-words.ts'
import type { Scene, SceneCylinder } from './scenes.ts'
import { WIDER_PT } from './theme.ts'
import { VERDICT_LOOKS } from './verdict-shapes.ts'
import {
  cylinderNumber,
  figureOf,
  settingWords,
  verdictOf,
  verdictsWords,
  verdictWord,
  type PresentFigure,
} from './words.ts'

const ROW_PT = 15
const FIGURE = 'late_rise_pct'

/** A present figure as printed: value and unit. */
export const printed = (figure: PresentFigure, format: string, texts: Texts): string =>
  formatArg(figure as never, { format, language: texts.language })

/** The limit on late rise in force, %. @throws Error when the result names none: a verdict could not have been given. */
export function riseLimit(result: Result): number {
  const found = result.limits.find((l) => l.key === 'lateRisePct')
  if (!found) throw new Error('result names no limit lateRisePct')
  return found.value
}

/** Both limits as lines across the chart, named once between them: two names would meet on a wide axis. */
export const limitLines = (limit: number, texts: Texts): { at: readonly number[]; words: string } => ({
  at: [-limit, limit],
  words: say(texts, 'chart.late-rise.limit', { limit }),
})

/** An axis that holds every interval and shows some room beyond both limits. */
export function riseAxis(scenes: readonly Scene[], limit: number): Axis {
  const figures = scenes.flatMap((s) => s.cylinders).flatMap((c) => figureOf(c.record, FIGURE) ?? [])
  const low = Math.min(-1.4 * limit, ...figures.map((f) => f.low))
  const high = Math.max(1.4 * limit, ...figures.map((f) => f.high))
  return niceAxis(low, high, { most: 6 })
}

function rowOf(c: SceneCylinder, texts: Texts): IntervalRow {
  const figure = figureOf(c.record, FIGURE)
  return {
    label: cylinderNumber(texts, c.cylinder),
    beside: [
      {
        shiftPt: 0,
        stage: c.record?.mark ?? '',
        word: verdictWord(texts, verdictOf(c)),
        figure: figure ? printed(figure, 'signed', texts) : say(texts, 'chart.absent'),
      },
    ],
  }
}

/** Late rise of every cylinder with its 95 % interval between the limits; shape and word give the verdict. */
export function lateRise(scene: Scene, how: { axis: Axis; limit: number; texts: Texts }): ChartPlan {
  const { axis, limit, texts } = how
  const marks = scene.cylinders.flatMap((c) => {
    const figure = figureOf(c.record, FIGURE)
    return figure
      ? [
          {
            row: cylinderNumber(texts, c.cylinder),
            value: figure.value,
            low: figure.low,
            high: figure.high,
            look: VERDICT_LOOKS[verdictOf(c)],
            dash: [],
            shiftPt: 0,
          },
        ]
      : []
  })
  const drawn = intervalRows({
    rows: scene.cylinders.map((c) => rowOf(c, texts)),
    marks,
    limits: limitLines(limit, texts),
    axis,
    title: say(texts, 'chart.axis.late-rise-short'),
    rowPt: ROW_PT,
    widthPt: WIDER_PT,
    texts,
  })
  const setting = settingWords(texts, scene)
  return {
    id: `late-rise-${scene.id}`,
    ...drawn,
    place: 'figures',
    title: say(texts, 'chart.late-rise.title', { setting }),
    alt: say(texts, 'chart.late-rise.alt', {
      setting,
      rise: riseWords(scene, FIGURE, texts),
      limit,
      verdicts: verdictsWords(texts, scene),
    }),
  }
}
