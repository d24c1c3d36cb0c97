import type { DrawnCylinder } from '../records/drawn-traces.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { AFTER, BEFORE } from './line-looks.ts'
import type { Axis } from './nice-ticks.ts'
import { linePanels, linePanelWidthPt, type LinePanel } from './line-panels.ts'
import { riseWords } from './rise-words.ts'
import type { SceneCylinder, ScenePair } from './scenes.ts'
import { columnsFor } from './spark-lines.ts'
import { TEXT_PT } from './theme.ts'
import { areRelative, cylinderWord, settingWords, verdictOf, verdictWord } from './words.ts'
import { wrapText } from './wrap-text.ts'

const PANEL_HEIGHT_PT = 80

const lineOf = (drawn: DrawnCylinder | undefined, role: 'before' | 'after') =>
  drawn ? [{ line: drawn.median, role }] : []

/** Each cylinder's median line before and after the repair in one panel: before dashed, after solid and heavier. */
export function beforeAfterLines(pair: ScenePair, axes: { x: Axis; y: Axis }, texts: Texts): ChartPlan {
  const numbers = [
    ...new Set([...pair.before.cylinders, ...pair.after.cylinders].map((c) => c.cylinder)),
  ].toSorted((a, b) => a - b)
  const columns = columnsFor(numbers.length)
  const relative = areRelative([...pair.before.cylinders, ...pair.after.cylinders])
  const rise = relative ? 'late_rise_pct' : 'late_rise_kv'
  const word = (c: SceneCylinder | undefined) =>
    c ? verdictWord(texts, verdictOf(c)) : say(texts, 'chart.not-captured')
  const panels = numbers.map((cylinder): LinePanel => {
    const [before, after] = [pair.before, pair.after].map((s) =>
      s.cylinders.find((c) => c.cylinder === cylinder),
    )
    const change = say(texts, 'chart.before-after.change', { before: word(before), after: word(after) })
    return {
      head: [cylinderWord(texts, cylinder)],
      aside: '',
      marks: [],
      under: wrapText(change, linePanelWidthPt(columns), { sizePt: TEXT_PT }),
      lines: [...lineOf(before?.drawn, 'before'), ...lineOf(after?.drawn, 'after')],
    }
  })
  const drawn = linePanels({
    panels,
    columns,
    ...axes,
    xTitle: say(texts, 'chart.axis.burn-ms'),
    yTitle: say(texts, relative ? 'chart.axis.share' : 'chart.axis.kv'),
    panelHeightPt: PANEL_HEIGHT_PT,
    language: texts.language,
    kinds: {
      before: { words: say(texts, 'chart.stage.before'), look: BEFORE },
      after: { words: say(texts, 'chart.stage.after'), look: AFTER },
    },
  })
  const setting = settingWords(texts, pair.before, false)
  return {
    id: `before-after-lines-${pair.before.id.replace(/^before-/, '')}`,
    ...drawn,
    place: 'before-after',
    title: say(texts, 'chart.before-after.lines-title', { setting }),
    alt: say(texts, 'chart.before-after.lines-alt', {
      setting,
      before: riseWords(pair.before, rise, texts),
      after: riseWords(pair.after, rise, texts),
    }),
  }
}
