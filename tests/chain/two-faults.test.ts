import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import { jobFiles } from '../../src/demo/write-job.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { allText, openPdf } from '../support/read-pdf.ts'
import { HOSE_AND_PUMP, JOINT_AND_PLUG } from '../support/two-fault-jobs.ts'

const root = mkdtempSync(join(tmpdir(), 'two-faults-'))
afterAll(() => rmSync(root, { recursive: true }))

/** Truth: the faults put into the model (tests/support/two-fault-jobs.ts). */
describe.each([
  {
    job: JOINT_AND_PLUG,
    causes: ['leak-runner-joint', 'plug-fouled'],
    verdicts: ['level', 'lean', 'level', 'level'],
    next: /plug.* cylinder 4/,
  },
  {
    job: HOSE_AND_PUMP,
    causes: ['leak-vacuum-hose', 'fuel-delivery-low'],
    verdicts: ['lean', 'lean', 'lean', 'lean'],
    next: /vacuum hose.* and .*fuel/,
  },
])('$job.folder, from the folder to the report', async ({ job, causes, verdicts, next }) => {
  for (const [path, bytes] of jobFiles(job)) {
    mkdirSync(join(root, dirname(path)), { recursive: true })
    writeFileSync(join(root, path), bytes)
  }
  const { result, files } = await runJob(
    join(root, job.folder),
    { page: 'A4', version: '0', embedCaptures: false, program: 'test', store: NO_STORE },
    loadTexts('en'),
  )
  if (process.env['TWO_FAULTS_TO'])
    for (const [name, bytes] of files)
      if (name === 'report.pdf') writeFileSync(join(process.env['TWO_FAULTS_TO'], `${job.folder}.pdf`), bytes)

  test('cylinders are read as they were made', () =>
    expect(result.cylinders.map((c) => c.verdict)).toEqual(verdicts))

  test('both causes are ranked and named in one sentence, which claims neither alone', () => {
    const ids = result.causes.map((c) => c.id)
    for (const cause of causes) expect(ids).toContain(cause)
    expect(result.ledger.kind).toBe('leading-beside')
    for (const cause of causes)
      expect(result.ledger.standing.text.toLowerCase()).toContain(
        result.causes.find((c) => c.id === cause)!.name.text.toLowerCase(),
      )
    expect(result.ledger.standing.text).toContain('two faults')
    expect(result.ledger.ruled_out.map((r) => r.id)).not.toContain(causes[1])
  })

  test('the next test is about what the first cause leaves open', () =>
    expect(result.next_test?.says.text).toMatch(next))

  test('the paper says so too, and calls no cause clear', async () => {
    const text = (await allText(await openPdf(Buffer.from(files.get('report.pdf')!)))).replaceAll(/\s+/g, ' ')
    expect(text).toContain('two faults may be there at once')
    expect(text).not.toContain('stands clear')
  })
})
