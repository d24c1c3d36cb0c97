import { createHash } from 'node:crypto'
import { say } from '../texts/say.ts'
import { byName } from './pdf/attachments.ts'
import type { DocumentFacts } from './pdf/xmp.ts'
import type { ReportInput } from './report-input.ts'

export type { Attachment } from './pdf/attachments.ts'
export type { ReportInput } from './report-input.ts'

/**
 * The report as a PDF (PDF/A-3a and PDF/UA-1): a view of the result that computes no figure.
 * Equal inputs give equal bytes. The heavy libraries are loaded on the first call.
 */
export async function renderReport(input: ReportInput): Promise<Uint8Array> {
  const { composeReport } = await import('./compose-report.ts')
  return composeReport(input, factsOf(input))
}

function factsOf({ result, texts, attachments, page, logo }: ReportInput): DocumentFacts {
  const { job, program } = result
  const tool = `${program.name} ${program.version}`
  const hash = createHash('sha256').update(JSON.stringify([result, page]))
  for (const { name, data } of byName(attachments)) hash.update(name).update(data)
  if (logo) hash.update(logo)
  return {
    title: say(texts, 'report.title', { workOrder: job.work_order }),
    author: job.shop.name ?? tool,
    subject: say(texts, 'report.subject'),
    language: result.language,
    when: `${job.closed ?? job.opened}T00:00:00Z`,
    tool,
    producer: `${tool}, PDFKit`,
    inputsSha256: hash.digest('hex'),
  }
}
