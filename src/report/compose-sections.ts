import { layOut, type Layout } from './layout/lay-out.ts'
import type { Section } from './pages/page-input.ts'
import { attach, type Attachment } from './pdf/attachments.ts'
import { collectBytes, openDocument } from './pdf/document.ts'
import { Pen } from './pdf/pen.ts'
import { drawRunningHeads, type RunningHeads } from './pdf/running-heads.ts'
import type { DocumentFacts } from './pdf/xmp.ts'
import type { Typeface } from './text/typeface.ts'
import { frameOf, type Paper } from './theme.ts'

/** What a document of sections is made with. Descriptions of attachments are sentences here. */
export interface Making {
  facts: DocumentFacts
  heads: RunningHeads
  paper: Paper
  typeface: Typeface
  attachments: readonly Attachment[]
  /** Evidence marks that have a row of their own, for links to it. */
  marks?: ReadonlySet<string>
}

/** Lays sections out, draws them page by page, embeds the files, and returns the finished bytes, their seal still blank. */
export async function composeSections(
  sections: readonly Section[],
  { facts, heads, paper, typeface, attachments, marks }: Making,
): Promise<Uint8Array> {
  const layout = layOut(sections, frameOf(paper), typeface)
  const doc = await openDocument(facts, { paper, typeface })
  const bytes = collectBytes(doc)
  const pen = new Pen(doc, typeface, marks)
  await drawPages(pen, layout, { sections, frame: frameOf(paper) })
  drawRunningHeads(pen, heads, paper)
  attach(doc, attachments, new Date(facts.when))
  doc.end()
  return bytes
}

/** Draws the parts in reading order, each under its section's element of the structure tree. */
async function drawPages(
  pen: Pen,
  layout: Layout,
  how: { sections: readonly Section[]; frame: { xPt: number; yPt: number; widthPt: number } },
): Promise<void> {
  const root = pen.doc.struct('Document')
  pen.doc.addStructure(root)
  const elements = how.sections.map(({ title }) => pen.element(root, 'Sect', { title }))
  let pages = 0
  for (const { item, page, yPt, ...part } of layout.placements) {
    while (pages <= page) {
      pen.doc.addPage()
      pages++
    }
    await layout.laid[item]!.draw(pen, {
      ...part,
      xPt: how.frame.xPt,
      yPt: how.frame.yPt + yPt,
      widthPt: how.frame.widthPt,
      pageOf: (anchor) => layout.pages.get(anchor),
      parent: elements[layout.sectionOf[item]!]!,
    })
  }
  for (const element of elements) element.end()
  root.end()
}
