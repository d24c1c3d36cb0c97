import { chartsOf } from '../charts/charts-of.ts'
import { say } from '../texts/say.ts'
import { layOut, type Layout } from './layout/lay-out.ts'
import { allSections } from './pages/all-sections.ts'
import type { PageInput, Section } from './pages/page-input.ts'
import { vehicleMark } from './pages/words.ts'
import { attach } from './pdf/attachments.ts'
import { collectBytes, openDocument } from './pdf/document.ts'
import { Pen } from './pdf/pen.ts'
import { drawRunningHeads, type RunningHeads } from './pdf/running-heads.ts'
import type { DocumentFacts } from './pdf/xmp.ts'
import type { ReportInput } from './report-input.ts'
import { missingSigns } from './text/clean-text.ts'
import { openTypeface } from './text/typeface.ts'
import { frameOf } from './theme.ts'

/** Lays the whole report out, draws it page by page, embeds the files, and returns the finished bytes. */
export async function composeReport(input: ReportInput, facts: DocumentFacts): Promise<Uint8Array> {
  const { result, texts, photos, logo, page: paper } = input
  const typeface = await openTypeface()
  const sections = allSections({
    result, texts, photos, logo, charts: input.charts ?? chartsOf(result, input.traces, texts),
    missingSigns: missingSigns(JSON.stringify(result), typeface.has),
  })
  const layout = layOut(sections, frameOf(paper), typeface)
  const doc = await openDocument(facts, { paper, typeface })
  const bytes = collectBytes(doc)
  const pen = new Pen(doc, typeface)
  await drawPages(pen, layout, { sections, frame: frameOf(paper) })
  drawRunningHeads(pen, runningHeads(input), paper)
  attach(doc, input.attachments.map((file) => ({ ...file, description: say(texts, file.description) })), new Date(facts.when))
  doc.end()
  return bytes
}

/** Draws the parts in reading order, each under its section's element of the structure tree. */
async function drawPages(
  pen: Pen, layout: Layout, how: { sections: readonly Section[]; frame: { xPt: number; yPt: number; widthPt: number } },
): Promise<void> {
  const root = pen.doc.struct('Document')
  pen.doc.addStructure(root)
  const elements = how.sections.map(({ title }) => pen.element(root, 'Sect', { title }))
  let pages = 0
  for (const { item, page, yPt, ...part } of layout.placements) {
    while (pages <= page) { pen.doc.addPage(); pages++ }
    await layout.laid[item]!.draw(pen, {
      ...part, xPt: how.frame.xPt, yPt: how.frame.yPt + yPt, widthPt: how.frame.widthPt, parent: elements[layout.sectionOf[item]!]!,
    })
  }
  for (const element of elements) element.end()
  root.end()
}

function runningHeads({ result, texts }: Pick<PageInput, 'result' | 'texts'>): RunningHeads {
  const { work_order: workOrder, shop } = result.job
  return {
    left: say(texts, 'report.header', { workOrder, shop: shop.name ?? '' }), right: say(texts, 'report.kind'),
    footLeft: [say(texts, 'report.footer', { workOrder }), vehicleMark(result)].filter(Boolean).join(' \u00b7 '),
    pageOf: (page, pages) => say(texts, 'report.page-of', { page, pages }),
  }
}
