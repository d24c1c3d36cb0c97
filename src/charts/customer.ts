import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { isJudged, ORDER, verdictOf as verdictTraits } from '../verdicts/kinds/index.ts'
import type { ChartPlan } from './chart-plan.ts'
import { drawingSpec } from './drawing.ts'
import type { KeyEntry } from './key-row.ts'
import { MEDIAN, OTHERS } from './line-looks.ts'
import type { Axis } from './nice-ticks.ts'
import { drawPanels, panelWidthPt, type Panel } from './panels.ts'
import type { Scene, ScenePair } from './scenes.ts'
import { TEXT_PT } from './theme.ts'
import { areRelative, cylindersWords, sentence, verdictOf } from './words.ts'
import { wrapText } from './wrap-text.ts'

const PANEL_HEIGHT_PT = 104
/** Heavier than in the technician's charts: the picture has two kinds of line and no other ink. */
const OTHER = { ...OTHERS, width: 0.9 }
const ODD = { ...MEDIAN, width: 2.4 }
/** Where no cylinder stands out, all are drawn alike. */
const EACH = { ...MEDIAN, width: 1.1 }

/** Cylinders to point out: those the engine's patterns name; none when they name all, for then no other is left to compare. */
function oddOnes(result: Result, scene: Scene): number[] {
  const named = [...(result.engine.before?.cylinders ?? []), ...(result.engine.after?.cylinders ?? [])]
  const here = scene.cylinders.map((c) => c.cylinder).filter((c) => named.includes(c))
  return here.length < scene.cylinders.length ? here : []
}

const HEADS = { before: 'chart.customer.before', after: 'chart.customer.after' } as const
const ALTS = { before: 'chart.customer.alt-before', after: 'chart.customer.alt-after' } as const

/** What the shape means in plain words, where the cylinders pointed out, or all, share one verdict; else nothing. */
function meaning(scene: Scene, odd: readonly number[], texts: Texts): string {
  const speaking = scene.cylinders.filter((c) => odd.length === 0 || odd.includes(c.cylinder))
  const verdicts = [...new Set(speaking.map(verdictOf))]
  const sure = verdicts.filter((v) => ORDER[v] !== 'unsure' && isJudged(v))
  if (verdicts.length === 1) return say(texts, verdictTraits(verdicts[0]!).means)
  if (sure.length === 0 || sure.some((v) => ORDER[v] !== 'in order'))
    return say(texts, 'chart.customer.means.several')
  // A line at the limit was judged, and does not stay level.
  const near = speaking.filter((c) => isJudged(verdictOf(c)) && ORDER[verdictOf(c)] === 'unsure')
  if (near.length === 0) return say(texts, 'chart.customer.means.level-where-judged')
  const who = cylindersWords(
    texts,
    near.map((c) => c.cylinder),
  )
  return say(texts, 'chart.customer.means.level-but', { who })
}

function panelOf(
  scene: Scene,
  odd: readonly number[],
  how: { both: boolean; widthPt: number; texts: Texts },
): Panel {
  const { both, widthPt, texts } = how
  const lines = scene.cylinders.flatMap((c) =>
    c.drawn ? [{ line: c.drawn.median, isOdd: odd.includes(c.cylinder) }] : [],
  )
  return {
    head: both ? say(texts, HEADS[scene.stage]) : say(texts, 'chart.customer.recorded'),
    aside: '',
    marks: [],
    under: wrapText(meaning(scene, odd, texts), widthPt, { sizePt: TEXT_PT }),
    lines: [
      ...lines
        .filter((l) => !l.isOdd)
        .map(({ line }) => ({ line, look: odd.length > 0 ? OTHER : EACH, role: 'other' })),
      ...lines.filter((l) => l.isOdd).map(({ line }) => ({ line, look: ODD, role: 'odd' })),
    ],
  }
}

function keyOf(odd: readonly number[], texts: Texts): KeyEntry[] {
  if (odd.length === 0) return [{ words: say(texts, 'chart.customer.each'), look: EACH }]
  return [
    { words: sentence(cylindersWords(texts, odd)), look: ODD },
    { words: say(texts, 'chart.customer.others'), look: OTHER },
  ]
}

/**
 * One calm picture for the customer: the spark lines of the cylinders that stand out, before the rest; before beside after
 * where both were recorded under the same conditions.
 */
export function customerPicture(
  shown: ScenePair | { before: Scene; after?: undefined },
  how: { axes: { x: Axis; y: Axis }; result: Result; texts: Texts },
): ChartPlan {
  const { axes, result, texts } = how
  const scenes = shown.after ? [shown.before, shown.after] : [shown.before]
  const odd = oddOnes(result, shown.before)
  const widthPt = panelWidthPt(scenes.length)
  const both = scenes.length > 1
  const { drawing } = drawPanels({
    panels: scenes.map((scene) => panelOf(scene, odd, { both, widthPt, texts })),
    columns: scenes.length,
    ...axes,
    xTitle: say(texts, 'chart.customer.time'),
    yTitle: say(
      texts,
      areRelative(scenes.flatMap((s) => s.cylinders)) ? 'chart.axis.share' : 'chart.customer.voltage',
    ),
    panelHeightPt: PANEL_HEIGHT_PT,
    key: keyOf(odd, texts),
    language: texts.language,
  })
  const who = odd.length > 0 ? cylindersWords(texts, odd) : say(texts, 'chart.customer.all')
  const seen = scenes.map((scene) =>
    say(texts, both ? ALTS[scene.stage] : 'chart.customer.alt-recorded', {
      means: meaning(scene, odd, texts),
    }),
  )
  return {
    id: 'customer',
    spec: drawingSpec(drawing),
    place: 'customer',
    title: say(texts, both ? 'chart.customer.title-both' : 'chart.customer.title', { who }),
    alt: [
      say(texts, odd.length > 0 ? 'chart.customer.alt' : 'chart.customer.alt-each', { who }),
      ...seen,
    ].join(' '),
    widthPt: drawing.widthPt,
    heightPt: drawing.heightPt,
  }
}
