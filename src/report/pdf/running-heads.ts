import { frameOf, MARGINS, PAPER, type Paper } from '../theme.ts'
import type { Pen } from './pen.ts'

/** What stands at the head and foot of every page. */
export interface RunningHeads {
  left: string
  right: string
  footLeft: string
  pageOf: (page: number, pages: number) => string
}

const STYLE = { size: 'small', face: 'regular', color: 'quiet' } as const

/** Draws head and foot on every page, as pagination artifacts. Page one carries the shop's letterhead, so no head. */
export function drawRunningHeads(pen: Pen, heads: RunningHeads, paper: Paper): void {
  const { count } = pen.doc.bufferedPageRange()
  for (let page = 0; page < count; page++) {
    pen.doc.switchToPage(page)
    if (page > 0)
      drawLine(
        pen,
        { left: heads.left, right: heads.right },
        { paper, yPt: MARGINS.headerPt, type: 'Header' },
      )
    const foot = { left: heads.footLeft, right: heads.pageOf(page + 1, count) }
    drawLine(pen, foot, {
      paper,
      yPt: PAPER[paper].heightPt - MARGINS.footerPt - FOOT_HEIGHT_PT,
      type: 'Footer',
    })
  }
}

const FOOT_HEIGHT_PT = 12

function drawLine(
  pen: Pen,
  words: { left: string; right: string },
  at: { paper: Paper; yPt: number; type: 'Header' | 'Footer' },
): void {
  const { xPt, widthPt } = frameOf(at.paper)
  const rightWidth = pen.widthOf(words.right, STYLE)
  const left = shorten(words.left, widthPt - rightWidth - 20, (text) => pen.widthOf(text, STYLE))
  pen.artifact(
    () => {
      pen.text(left, { xPt, yPt: at.yPt }, STYLE)
      pen.text(words.right, { xPt: xPt + widthPt - rightWidth, yPt: at.yPt }, STYLE)
      const ruleY = at.type === 'Header' ? at.yPt + 16 : at.yPt - 5
      pen.rule({ xPt, yPt: ruleY, widthPt }, { color: 'rule', thickPt: 0.6 })
    },
    { type: 'Pagination', attached: [at.type === 'Header' ? 'Top' : 'Bottom'] },
  )
}

/** A running head has one line; what does not fit ends in an ellipsis. The whole stands on page two. */
function shorten(text: string, widthPt: number, width: (text: string) => number): string {
  if (width(text) <= widthPt) return text
  let short = text
  while (short !== '' && width(`${short}\u2026`) > widthPt) short = short.slice(0, -1)
  return `${short.trimEnd()}\u2026`
}
