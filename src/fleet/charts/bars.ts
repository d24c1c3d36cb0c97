import type { ChartPlan } from '../../charts/chart-plan.ts'
import { note, text } from '../../charts/drawing.ts'
import { widthOf } from '../../charts/faces.ts'
import { ACCENT, FAINT, FULL_WIDTH_PT, INK, PAPER, SMALL_PT, STRONG, TEXT_PT } from '../../charts/theme.ts'
import { wrapText } from '../../charts/wrap-text.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { blank, planOf } from './plan.ts'

/** A bar cut into counted parts. */
export interface Bar {
  label: string
  parts: readonly number[]
}

/** Fill and edge of each part, told apart by tone in a grey print too. */
const LOOKS = [
  { fill: ACCENT, words: PAPER },
  { fill: FAINT, words: PAPER },
  { fill: PAPER, words: INK },
  { fill: INK, words: PAPER },
] as const

const ROW_PT = 15
const BAR_PT = 10
const LABEL_MOST_PT = 190
const LINE_PT = 9.5
const TOTAL_PT = 34
const KEY_PT = 18

/**
 * Bars of counts from top to bottom, each part with its figure where there is room, the sum behind.
 *
 * @param names  what each part is, in the order of the parts; one name needs no key
 */
export function bars(
  id: string,
  rows: readonly Bar[],
  how: { names: readonly string[]; title: string; alt: string; language: string },
): ChartPlan {
  const number = (count: number) => formatNumber(count, 0, how.language)
  const labels = rows.map(({ label }) => wrapText(label, LABEL_MOST_PT, { sizePt: TEXT_PT }))
  const left = Math.ceil(Math.max(...labels.flat().map((line) => widthOf(line, TEXT_PT)))) + 8
  const heights = labels.map((lines) => Math.max(ROW_PT, lines.length * LINE_PT + 5))
  const keyed = how.names.length > 1
  const drawing = blank((keyed ? KEY_PT : 2) + heights.reduce((sum, h) => sum + h, 0) + 2)
  const most = Math.max(1, ...rows.map(({ parts }) => parts.reduce((sum, n) => sum + n, 0)))
  const scale = (FULL_WIDTH_PT - left - TOTAL_PT) / most
  if (keyed) drawKey(drawing, how.names, left)
  let top = keyed ? KEY_PT : 2
  rows.forEach(({ parts }, i) => {
    const middle = top + heights[i]! / 2
    labels[i]!.forEach((line, j) =>
      drawing.texts.push(
        text('label', line, {
          x: left - 8,
          y: middle + (j - (labels[i]!.length - 1) / 2) * LINE_PT,
          align: 'right',
        }),
      ),
    )
    let x = left
    parts.forEach((count, part) => {
      const look = LOOKS[part % LOOKS.length]!
      const width = count * scale
      if (count > 0) box(drawing, { x, y: middle - BAR_PT / 2, width, height: BAR_PT, fill: look.fill })
      if (keyed && width > widthOf(number(count), SMALL_PT) + 4)
        drawing.texts.push(
          note('figure', number(count), { x: x + width / 2, y: middle, align: 'center', fill: look.words }),
        )
      x += width
    })
    drawing.texts.push(
      text('total', number(parts.reduce((sum, n) => sum + n, 0)), { x: x + 5, y: middle, weight: STRONG }),
    )
    top += heights[i]!
  })
  return planOf(id, drawing, how)
}

function drawKey(drawing: ReturnType<typeof blank>, names: readonly string[], left: number): void {
  let x = left
  names.forEach((name, i) => {
    box(drawing, { x, y: 3, width: 9, height: 8, fill: LOOKS[i % LOOKS.length]!.fill })
    drawing.texts.push(note('key', name, { x: x + 13, y: 7 }))
    x += 13 + widthOf(name, SMALL_PT) + 14
  })
}

/** A filled box with an edge, so that a white part is seen. */
function box(
  drawing: ReturnType<typeof blank>,
  { x, y, width, height, fill }: { x: number; y: number; width: number; height: number; fill: string },
): void {
  drawing.bands.push({ role: 'bar', x, y, x2: x + width, y2: y + height, fill })
  drawing.paths.push({
    role: 'edge',
    x,
    y,
    path: `M0,0L${width},0L${width},${height}L0,${height}Z`,
    stroke: INK,
    width: 0.5,
    dash: [],
    opacity: 1,
    tolerancePt: 0,
  })
}
