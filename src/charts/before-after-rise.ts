import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { intervalRows, type IntervalMark } from './interval-rows.ts'
import { limitLines, printed } from './late-rise.ts'
import type { Axis } from './nice-ticks.ts'
import { riseWords } from './rise-words.ts'
import type { Scene, ScenePair } from './scenes.ts'
import { VERDICT_LOOKS } from './verdict-shapes.ts'
import { cylinderWord, figureOf, settingWords, verdictOf, verdictWord } from './words.ts'

const ROW_PT = 24
/** Before stands above the middle of its row, after below it. */
const SHIFT_PT = 5.5
const FIGURE = 'late_rise_pct'
const STAGES = ['before', 'after'] as const
const DASHES = { before: [2, 1.5], after: [] } as const

const rowLabel = (cylinder: number, texts: Texts) => cylinderWord(texts, cylinder)

function marksOf(scene: Scene, texts: Texts): IntervalMark[] {
  return scene.cylinders.flatMap((c) => {
    const figure = figureOf(c.record, FIGURE)
    return figure
      ? [
          {
            row: rowLabel(c.cylinder, texts),
            value: figure.value,
            low: figure.low,
            high: figure.high,
            look: VERDICT_LOOKS[verdictOf(c)],
            dash: DASHES[scene.stage],
            shiftPt: scene.stage === 'before' ? -SHIFT_PT : SHIFT_PT,
          },
        ]
      : []
  })
}

/** Late rise before and after the repair, a row a cylinder: before above with a dashed interval, after below with a solid one. */
const SHORT = { before: 'chart.short.before', after: 'chart.short.after' } as const

export function beforeAfterRise(
  pair: ScenePair,
  how: { axis: Axis; limit: number; texts: Texts },
): ChartPlan {
  const { axis, limit, texts } = how
  const cylinders = [...new Set(STAGES.flatMap((s) => pair[s].cylinders.map((c) => c.cylinder)))].toSorted(
    (a, b) => a - b,
  )
  const of = (stage: 'before' | 'after', cylinder: number) =>
    pair[stage].cylinders.find((c) => c.cylinder === cylinder)
  const beside = (stage: 'before' | 'after', cylinder: number) => {
    const found = of(stage, cylinder)
    const figure = figureOf(found?.record, FIGURE)
    const word = found ? verdictWord(texts, verdictOf(found)) : say(texts, 'chart.not-captured')
    return {
      shiftPt: stage === 'before' ? -SHIFT_PT : SHIFT_PT,
      figure: figure ? printed(figure, 'signed', texts) : say(texts, 'chart.absent'),
      word,
      stage: [say(texts, SHORT[stage]), found?.record?.mark].filter(Boolean).join(' '),
    }
  }
  const drawn = intervalRows({
    rows: cylinders.map((cylinder) => ({
      label: rowLabel(cylinder, texts),
      beside: STAGES.map((stage) => beside(stage, cylinder)),
    })),
    marks: STAGES.flatMap((stage) => marksOf(pair[stage], texts)),
    limits: limitLines(limit, texts),
    axis,
    title: say(texts, 'chart.axis.late-rise'),
    rowPt: ROW_PT,
    texts,
  })
  const setting = settingWords(texts, pair.before, false)
  return {
    id: `before-after-late-rise-${pair.before.id.replace(/^before-/, '')}`,
    ...drawn,
    place: 'before-after',
    title: say(texts, 'chart.before-after.rise-title', { setting }),
    alt: say(texts, 'chart.before-after.rise-alt', {
      setting,
      limit,
      before: riseWords(pair.before, FIGURE, texts),
      after: riseWords(pair.after, FIGURE, texts),
    }),
  }
}
