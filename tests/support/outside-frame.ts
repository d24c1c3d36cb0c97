import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { frameOf } from '../../src/report/theme.ts'

/** How far a letter may lean over the edge, pt: its drawn width is rounded. */
const SLACK_PT = 1

/** Runs of text that begin or end outside the margins of their page; turned ones by their own height. */
export async function outsideFrame(doc: PDFDocumentProxy, page: 'A4' | 'LETTER'): Promise<string[]> {
  const { xPt, widthPt } = frameOf(page)
  const out: string[] = []
  for (let number = 1; number <= doc.numPages; number++) {
    const sheet = await doc.getPage(number)
    const [, , , heightPt] = sheet.view as [number, number, number, number]
    const { items } = await sheet.getTextContent()
    for (const item of items) {
      if (!('str' in item) || item.str.trim() === '') continue
      const [a, b, , , x, y] = item.transform as [number, number, number, number, number, number]
      const turned = Math.abs(b) > Math.abs(a)
      const left = turned ? x - Math.abs(b) : x
      const right = turned ? x : x + item.width
      const [low, high] = turned
        ? [Math.min(y, y + Math.sign(b) * item.width), Math.max(y, y + Math.sign(b) * item.width)]
        : [y, y + a]
      if (left < xPt - SLACK_PT || right > xPt + widthPt + SLACK_PT || low < 0 || high > heightPt)
        out.push(`page ${number}: ${item.str}`)
    }
  }
  return out
}
