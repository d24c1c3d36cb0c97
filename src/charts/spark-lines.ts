import { formatNumber } from '../texts/format-quantity.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { EVENT, MEDIAN } from './line-looks.ts'
import type { Axis } from './nice-ticks.ts'
import { linePanels, linePanelWidthPt, type LinePanel } from './line-panels.ts'
import { riseWords } from './rise-words.ts'
import type { Scene, SceneCylinder } from './scenes.ts'
import { TEXT_PT } from './theme.ts'
import { areRelative, cylinderWord, settingWords, verdictOf, verdictsWords, verdictWord } from './words.ts'
import { wrapText } from './wrap-text.ts'

const PANEL_HEIGHT_PT = 84

/** Panels side by side: wide enough to read a shape, few enough rows to stay on a page. */
export const columnsFor = (cylinders: number): number =>
  cylinders <= 4 ? Math.max(cylinders, 2) : cylinders <= 6 ? 3 : 4

function panelOf(c: SceneCylinder, widthPt: number, texts: Texts): LinePanel {
  const { drawn } = c
  return {
    head: [cylinderWord(texts, c.cylinder)],
    aside: [
      c.record?.mark,
      drawn
        ? say(texts, 'chart.spark-lines.shown', { shown: drawn.shown, of: drawn.of })
        : say(texts, 'chart.no-line'),
    ]
      .filter(Boolean)
      .join(', '),
    under: wrapText(verdictWord(texts, verdictOf(c)), widthPt, { sizePt: TEXT_PT }),
    lines: drawn
      ? [...drawn.events.map((line) => ({ line, role: 'event' })), { line: drawn.median, role: 'median' }]
      : [],
    marks: (drawn?.marks ?? []).map((m) => ({
      x: m.ms,
      y: m.kv,
      words: `${formatNumber(m.share, 0, texts.language)}\u00a0%`,
    })),
  }
}

/** Each cylinder's events laid over each other, their median line and its 10, 50 and 90 % marks; all on the same axes. */
export function sparkLines(scene: Scene, axes: { x: Axis; y: Axis }, texts: Texts): ChartPlan {
  const columns = columnsFor(scene.cylinders.length)
  const relative = areRelative(scene.cylinders)
  const drawn = linePanels({
    panels: scene.cylinders.map((c) => panelOf(c, linePanelWidthPt(columns), texts)),
    columns,
    ...axes,
    xTitle: say(texts, 'chart.axis.burn-ms'),
    yTitle: say(texts, relative ? 'chart.axis.share' : 'chart.axis.kv'),
    panelHeightPt: PANEL_HEIGHT_PT,
    language: texts.language,
    kinds: {
      event: { words: say(texts, 'chart.spark-lines.key-event'), look: EVENT, keyWidthPt: 0.6 },
      median: { words: say(texts, 'chart.spark-lines.key-median'), look: MEDIAN },
    },
  })
  const setting = settingWords(texts, scene)
  return {
    id: `spark-lines-${scene.id}`,
    ...drawn,
    place: 'figures',
    title: say(texts, 'chart.spark-lines.title', { setting }),
    alt: say(texts, 'chart.spark-lines.alt', {
      setting,
      cylinders: scene.cylinders.length,
      rise: riseWords(scene, relative ? 'late_rise_pct' : 'late_rise_kv', texts),
      verdicts: verdictsWords(texts, scene),
    }),
  }
}
