import { createHash } from 'node:crypto'
import { renderReport } from '../../src/report/render-report.ts'
import { sampleJob, sampleTexts } from './sample-result.ts'

/** SHA-256 of a sample report: the same in every process. */
export async function digestReport(): Promise<string> {
  const { result, traces } = sampleJob({ cylinders: 4, tests: 3, after: false })
  const attachments = [
    {
      name: 'b.csv',
      data: Buffer.from('a\n1\n'),
      mime: 'text/csv',
      relationship: 'Data',
      description: 'attachment.tests.csv',
    },
    {
      name: '\u00e4.csv',
      data: Buffer.from('a\n2\n'),
      mime: 'text/csv',
      relationship: 'Data',
      description: 'attachment.tests.csv',
    },
    {
      name: 'Z.csv',
      data: Buffer.from('a\n3\n'),
      mime: 'text/csv',
      relationship: 'Data',
      description: 'attachment.tests.csv',
    },
  ] as const
  const bytes = await renderReport({
    result,
    traces,
    texts: sampleTexts(),
    attachments,
    photos: new Map(),
    page: 'A4',
  })
  return createHash('sha256').update(bytes).digest('hex')
}
