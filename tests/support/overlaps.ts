import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { MARGINS, PAPER, type Paper } from '../../src/report/theme.ts'

interface Run {
  words: string
  left: number
  right: number
  low: number
  high: number
}

/** Ink of a line of text above and below its baseline, shares of its size: capitals reach 0.66 em, descenders 0.2 em; a hair is let pass. */
const ABOVE = 0.6
const BELOW = 0.15
const SLACK_PT = 0.7

/** Level runs of text of a page with the boxes that their letters fill. */
async function runsOf(doc: PDFDocumentProxy, page: number): Promise<Run[]> {
  const { items } = await (await doc.getPage(page)).getTextContent()
  return items.flatMap((item) => {
    if (!('str' in item) || item.str.trim() === '') return []
    const [size, turn, , , x, y] = item.transform as [number, number, number, number, number, number]
    return turn === 0
      ? [{ words: item.str, left: x, right: x + item.width, low: y - BELOW * size, high: y + ABOVE * size }]
      : []
  })
}

/** Pairs of runs that lie upon each other. */
export async function overlapsOf(doc: PDFDocumentProxy): Promise<string[]> {
  const found: string[] = []
  for (let page = 1; page <= doc.numPages; page++) {
    const runs = (await runsOf(doc, page)).toSorted((a, b) => a.low - b.low)
    runs.forEach((a, i) => {
      for (let k = i + 1; k < runs.length && runs[k]!.low < a.high - SLACK_PT; k++) {
        const b = runs[k]!
        if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > SLACK_PT)
          found.push(`page ${page}: ${a.words} / ${b.words}`)
      }
    })
  }
  return found
}

/**
 * Runs of the body cut short with an ellipsis within or behind a word; that of a range stands between figures. Running
 * heads name the work order in full and shorten what stands behind it.
 */
export async function cutShort(doc: PDFDocumentProxy, paper: Paper): Promise<string[]> {
  const { heightPt } = PAPER[paper]
  const isBody = ({ low }: Run) => low > MARGINS.bottomPt - 2 && low < heightPt - MARGINS.topPt
  const found: string[] = []
  for (let page = 1; page <= doc.numPages; page++) {
    found.push(
      ...(await runsOf(doc, page))
        .filter((run) => isBody(run) && /\p{L}\s?\u2026/u.test(run.words))
        .map(({ words }) => `page ${page}: ${words}`),
    )
  }
  return found
}
