import type { LaidChart } from '../../charts/laid-chart.ts'
import type { DrawnTraces } from '../../records/drawn-traces.ts'
import type { Result } from '../../records/result.ts'
import { claimText } from '../../report/claim-text.ts'
import type { Texts, WordKey } from '../../texts/messages.ts'
import { savedSpec } from '../../charts/saved-spec.ts'

interface Given {
  result: Result
  drawn: DrawnTraces
  texts: Texts
  /** result.json and the CSV files, already as text. */
  records: ReadonlyMap<string, string>
  /** Bytes of an input file by its name in the job. */
  inputFile: (file: string) => Promise<Uint8Array>
  embedCaptures: boolean
  logo?: Uint8Array | undefined
  /** Length of the signature readers show, bytes, where the report will carry one. */
  slotBytes?: number | undefined
}

/** Loads what draws: heavy, and so only when it is wanted. */
async function loadDrawing() {
  const [charts, views, svg, report, { prepareReports }] = await Promise.all([
    import('../../charts/charts-of.ts'),
    import('../../charts/laid-chart.ts'),
    import('../../charts/render-svg.ts'),
    import('../../report/render-report.ts'),
    import('../../report/compose-report.ts'),
    import('../../charts/engine.ts'),
  ])
  await prepareReports()
  return [charts, views, svg, report] as const
}

/**
 * Draws the charts and the PDF, and gathers every output but the manifest. Each chart is laid out once and drawn twice:
 * as a file of its own and into the PDF. Heavy libraries are loaded only here.
 */
export async function renderOutputs({
  result,
  drawn,
  texts,
  records,
  inputFile,
  embedCaptures,
  logo,
  slotBytes,
}: Given): Promise<Map<string, Uint8Array | string>> {
  const [{ chartsOf }, { layOutChart }, { svgOfView }, { renderReport }] = await loadDrawing()
  const photos = new Map<string, Uint8Array>()
  for (const { file } of result.job.photos) photos.set(file, await inputFile(file))
  const captures = new Map<string, Uint8Array>()
  if (embedCaptures) for (const { file } of result.captures) captures.set(file, await inputFile(file))

  const files = new Map<string, Uint8Array | string>(records).set('claim.txt', claimText(result, texts))
  const charts: LaidChart[] = []
  for (const plan of chartsOf(result, drawn, texts)) {
    const laid = await layOutChart(plan)
    charts.push(laid)
    files.set(`charts/${plan.id}.svg`, await svgOfView(laid.view, plan.spec))
    const spec = savedSpec(plan)
    if (spec) files.set(`charts/${plan.id}.${spec.ending}`, spec.text)
  }
  const attachments = attachmentsOf(records, captures, result)
  files.set(
    'report.pdf',
    await renderReport({
      result,
      traces: drawn,
      charts,
      texts,
      attachments,
      photos,
      page: result.page,
      ...(logo === undefined ? {} : { logo }),
      ...(slotBytes === undefined ? {} : { slotBytes }),
    }),
  )
  for (const { view } of charts) view.finalize()
  return files
}

type Attachment = Parameters<
  typeof import('../../report/render-report.ts').renderReport
>[0]['attachments'][number]

/** What goes into the PDF as associated files: the records, the list of input digests and, on request, the captures. */
const ATTACHMENTS: Readonly<Record<string, WordKey>> = {
  'result.json': 'attachment.result.json',
  'cylinders.csv': 'attachment.cylinders.csv',
  'events.csv': 'attachment.events.csv',
  'tests.csv': 'attachment.tests.csv',
  'inputs.json': 'attachment.inputs.json',
}

function attachmentsOf(
  records: ReadonlyMap<string, string>,
  captures: ReadonlyMap<string, Uint8Array>,
  result: Result,
): Attachment[] {
  const text = (name: string, content: string): Attachment => ({
    name,
    data: Buffer.from(content, 'utf8'),
    mime: name.endsWith('.json') ? 'application/json' : 'text/csv',
    relationship: 'Data',
    description: ATTACHMENTS[name]!,
  })
  return [
    ...[...records].map(([name, content]) => text(name, content)),
    text('inputs.json', `${JSON.stringify(result.inputs, null, 2)}\n`),
    ...[...captures].map(([name, data]): Attachment => ({
      name,
      data,
      mime: name.endsWith('.gz') ? 'application/gzip' : 'text/csv',
      relationship: 'Source',
      description: 'attachment.capture',
    })),
  ]
}
