import { chartsOf } from '../charts/charts-of.ts'
import { layOutChart } from '../charts/laid-chart.ts'
import { say, sayAgain } from '../texts/say.ts'
import { composeSections } from './compose-sections.ts'
import { allSections } from './pages/all-sections.ts'
import type { PageInput } from './pages/page-input.ts'
import { vehicleMark } from './pages/words.ts'
import type { RunningHeads } from './pdf/running-heads.ts'
import type { DocumentFacts } from './pdf/xmp.ts'
import type { ReportInput } from './report-input.ts'
import { missingSigns } from './text/clean-text.ts'
import { openTypeface } from './text/typeface.ts'

/** Loads the libraries and reads the fonts ahead of the first report: for who has nothing else to do. */
export async function prepareReports(): Promise<void> {
  await Promise.all([openTypeface(), import('pdfkit')])
}

/** Lays the whole report out, draws it page by page, embeds the files, and returns the finished bytes. */
export async function composeReport(input: ReportInput, facts: DocumentFacts): Promise<Uint8Array> {
  const { result, texts, photos, logo, slotBytes, page: paper } = input
  const typeface = await openTypeface()
  const charts = input.charts ?? (await Promise.all(chartsOf(result, input.traces, texts).map(layOutChart)))
  const sections = allSections({
    result,
    texts,
    photos,
    logo,
    slotBytes,
    charts,
    missingSigns: missingSigns(JSON.stringify(result), typeface.has),
  })
  return composeSections(sections, {
    facts,
    paper,
    typeface,
    heads: runningHeads(input),
    marks: new Set([...result.captures, ...result.cylinders, ...result.tests].map(({ mark }) => mark)),
    attachments: input.attachments.map((file) => ({
      ...file,
      description: sayAgain(texts, { key: file.description, args: {} }),
    })),
  })
}

function runningHeads({ result, texts }: Pick<PageInput, 'result' | 'texts'>): RunningHeads {
  const { work_order: workOrder, shop } = result.job
  return {
    left: say(texts, 'report.header', { workOrder, shop: shop.name ?? '' }),
    right: revisionKind(result, texts),
    footLeft: [say(texts, 'report.footer', { workOrder }), vehicleMark(result)]
      .filter(Boolean)
      .join(' \u00b7 '),
    pageOf: (page, pages) => say(texts, 'report.page-of', { page, pages }),
  }
}

/** A reissue carries its number on every page. */
const revisionKind = ({ revision }: PageInput['result'], texts: PageInput['texts']): string =>
  say(texts, 'report.kind') + (revision ? ` \u00b7 ${say(texts, 'report.revision')} ${revision.number}` : '')
