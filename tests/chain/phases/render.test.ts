import { expect, test } from 'vitest'
import { renderOutputs } from '../../../src/chain/phases/render.ts'
import { chartsOf } from '../../../src/charts/charts-of.ts'
import { renderSvg } from '../../../src/charts/render-svg.ts'
import { resultJson } from '../../../src/records/result-json.ts'
import { renderReport } from '../../../src/report/render-report.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import { sampleJob } from '../../support/sample-result.ts'

const texts = loadTexts('en')

test('a chart laid out once and drawn twice is the same, in its file and in the PDF, as one laid out for each', async () => {
  const { result, traces } = sampleJob({ cylinders: 4, tests: 3, after: false })
  const job = { ...result, job: { ...result.job, photos: [] } }
  const records = new Map([['result.json', resultJson(job)]])
  const files = await renderOutputs({
    result: job,
    drawn: traces,
    texts,
    records,
    inputFile: () => Promise.reject(new Error('no photos here')),
    embedCaptures: false,
  })
  const attachments = [
    {
      name: 'result.json',
      data: Buffer.from(resultJson(job)),
      mime: 'application/json',
      relationship: 'Data' as const,
      description: 'attachment.result.json',
    },
    {
      name: 'inputs.json',
      data: Buffer.from(`${JSON.stringify(job.inputs, null, 2)}\n`),
      mime: 'application/json',
      relationship: 'Data' as const,
      description: 'attachment.inputs.json',
    },
  ]
  const apart = await renderReport({
    result: job,
    traces,
    texts,
    attachments,
    photos: new Map(),
    page: job.page,
  })
  expect(Buffer.compare(files.get('report.pdf') as Uint8Array, apart)).toBe(0)
  for (const plan of chartsOf(job, traces, texts))
    expect(files.get(`charts/${plan.id}.svg`), plan.id).toBe(await renderSvg(plan.spec))
})
