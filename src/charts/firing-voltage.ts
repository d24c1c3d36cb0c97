import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { boundWords } from '../texts/format-quantity.ts'
import type { ChartPlan } from './chart-plan.ts'
import { EXTRAPOLATED } from './words.ts'
import { intervalRows } from './interval-rows.ts'
import { printed } from './late-rise.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'
import type { Scene } from './scenes.ts'
import { NARROWER_PT } from './theme.ts'
import { VERDICT_LOOKS } from './verdict-shapes.ts'
import { cylinderNumber, cylindersWords, figureOf, settingWords, type PresentFigure } from './words.ts'

const ROW_PT = 15
const FIGURE = 'firing_kv'
/** How far beyond a lower bound the axis goes, so that its line can be seen to go on. */
const BEYOND_BOUND = 1.5

/** A value beyond the highest samples. */
const isExtrapolated = (figure: PresentFigure): boolean => figure.extrapolated_from !== undefined

interface Fired {
  cylinder: number
  figure: PresentFigure
}
/** A lower bound: the recorder cut off or missed the tops. */
interface Bound {
  cylinder: number
  atLeast: number
}
const bounds = (scene: Scene): Bound[] =>
  scene.cylinders.flatMap((c) => {
    const figure = c.record?.figures[FIGURE]
    return figure && 'absent' in figure && figure.at_least !== undefined
      ? [{ cylinder: c.cylinder, atLeast: figure.at_least }]
      : []
  })

const fired = (scene: Scene): Fired[] =>
  scene.cylinders.flatMap((c) => {
    const figure = figureOf(c.record, FIGURE)
    return figure ? [{ cylinder: c.cylinder, figure }] : []
  })

/** Where the pickup's ratio is not stated there is nothing in kV to draw. */
export const isFiringShown = (scene: Scene): boolean =>
  scene.cylinders.some((c) => {
    const figure = c.record?.figures[FIGURE]
    return !(figure && 'absent' in figure && figure.absent === 'ratio-unknown')
  })

/** An axis from zero that holds every firing voltage of the scenes, kV. */
export const firingAxis = (scenes: readonly Scene[]): Axis =>
  niceAxis(
    0,
    Math.max(
      1,
      ...scenes.flatMap(fired).map((f) => f.figure.high),
      ...scenes.flatMap(bounds).map((b) => BEYOND_BOUND * b.atLeast),
    ),
    { most: 5 },
  )

function altWords(scene: Scene, setting: string, texts: Texts): string {
  const present = fired(scene).toSorted((a, b) => a.figure.value - b.figure.value)
  const [lowest, highest] = [present[0], present.at(-1)]
  const quantity = (f: PresentFigure) => ({ value: f.value, low: f.low, high: f.high, unit: 'kV' as const })
  const beyond = present.filter(({ figure }) => isExtrapolated(figure)).map(({ cylinder }) => cylinder)
  return [
    lowest && highest
      ? say(texts, 'chart.firing.alt', {
          setting,
          low: quantity(lowest.figure),
          high: quantity(highest.figure),
          lowest: cylindersWords(texts, [lowest.cylinder]),
          highest: cylindersWords(texts, [highest.cylinder]),
        })
      : say(texts, 'chart.firing.alt-none', { setting }),
    ...(beyond.length > 0
      ? [say(texts, 'chart.firing.alt-extrapolated', { who: cylindersWords(texts, beyond) })]
      : []),
    ...bounds(scene).map(({ cylinder, atLeast }) =>
      say(texts, 'chart.firing.alt-bound', { who: cylindersWords(texts, [cylinder]), kv: atLeast }),
    ),
  ].join(' ')
}

/** Firing voltage of every cylinder with its 95 % interval. */
export function firingVoltage(scene: Scene, axis: Axis, texts: Texts): ChartPlan {
  const drawn = intervalRows({
    rows: scene.cylinders.map((c) => {
      const figure = figureOf(c.record, FIGURE)
      const bound = bounds(scene).find((b) => b.cylinder === c.cylinder)
      const words = figure
        ? printed(figure, 'd1', texts) + (isExtrapolated(figure) ? EXTRAPOLATED : '')
        : bound
          ? boundWords(bound.atLeast, 'kV', texts.language)
          : say(texts, 'chart.absent')
      return {
        label: cylinderNumber(texts, c.cylinder),
        beside: [{ shiftPt: 0, stage: c.record?.mark ?? '', figure: words, word: '' }],
      }
    }),
    marks: [
      ...fired(scene).map(({ cylinder, figure }) => ({
        row: cylinderNumber(texts, cylinder),
        value: figure.value,
        low: figure.low,
        high: figure.high,
        look: VERDICT_LOOKS.level,
        dash: [],
        shiftPt: 0,
      })),
      // A bound is a dashed line from there to the end of the axis: nothing says where above it the voltage lies.
      ...bounds(scene).map(({ cylinder, atLeast }) => ({
        row: cylinderNumber(texts, cylinder),
        value: atLeast,
        low: atLeast,
        high: axis.high,
        look: VERDICT_LOOKS['not judged'],
        dash: [2, 2],
        shiftPt: 0,
      })),
    ],
    axis,
    title: say(texts, 'chart.axis.firing'),
    rowPt: ROW_PT,
    widthPt: NARROWER_PT,
    texts,
  })
  const setting = settingWords(texts, scene)
  return {
    id: `firing-voltage-${scene.id}`,
    ...drawn,
    place: 'figures',
    title: say(
      texts,
      fired(scene).some(({ figure }) => isExtrapolated(figure))
        ? 'chart.firing.title-extrapolated'
        : 'chart.firing.title',
      { setting },
    ),
    alt: altWords(scene, setting, texts),
  }
}
