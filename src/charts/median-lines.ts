import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { drawingSpec } from './drawing.ts'
import { MEDIAN, OTHERS } from './line-looks.ts'
import type { Axis } from './nice-ticks.ts'
import { drawPanels, type Panel } from './panels.ts'
import { riseWords } from './rise-words.ts'
import type { Scene, SceneCylinder } from './scenes.ts'
import { cylinderNumber, settingWords } from './words.ts'

const PANEL_HEIGHT_PT = 84

/** A cylinder's own line in front, all the others' behind it: a difference shows without looking from panel to panel. */
function panelOf(c: SceneCylinder, all: readonly SceneCylinder[], texts: Texts): Panel {
  const others = all
    .filter((o) => o.cylinder !== c.cylinder)
    .flatMap((o) => (o.drawn ? [o.drawn.median] : []))
  return {
    head: cylinderNumber(texts, c.cylinder),
    aside: c.drawn ? '' : say(texts, 'chart.no-line'),
    under: [],
    lines: [
      ...others.map((line) => ({ line, look: OTHERS, role: 'other' })),
      ...(c.drawn ? [{ line: c.drawn.median, look: MEDIAN, role: 'median' }] : []),
    ],
    marks: [],
  }
}

/** All cylinders' median lines beside each other in one row on the same axes. */
export function medianLines(scene: Scene, axes: { x: Axis; y: Axis }, texts: Texts): ChartPlan {
  const { drawing } = drawPanels({
    panels: scene.cylinders.map((c) => panelOf(c, scene.cylinders, texts)),
    columns: scene.cylinders.length,
    ...axes,
    xTitle: say(texts, 'chart.axis.burn-ms'),
    yTitle: say(texts, 'chart.axis.kv'),
    panelHeightPt: PANEL_HEIGHT_PT,
    language: texts.language,
    key: [
      { words: say(texts, 'chart.median-lines.key-own'), look: MEDIAN },
      { words: say(texts, 'chart.median-lines.key-others'), look: OTHERS },
    ],
  })
  const setting = settingWords(texts, scene)
  return {
    id: `median-lines-${scene.id}`,
    spec: drawingSpec(drawing),
    place: 'figures',
    title: say(texts, 'chart.median-lines.title', { setting }),
    alt: say(texts, 'chart.median-lines.alt', {
      setting,
      cylinders: scene.cylinders.length,
      rise: riseWords(scene, 'late_rise_kv', texts),
    }),
    widthPt: drawing.widthPt,
    heightPt: drawing.heightPt,
  }
}
