import { appendFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test, vi } from 'vitest'
import { checkJob } from '../../src/chain/check-job.ts'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import type { StepKind } from '../../src/test-log/step-kind.ts'
import type { PartReader } from '../../src/test-log/steps/part.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import type { WordKey } from '../../src/texts/messages.ts'
import { copyDemoJob } from '../support/demo-job.ts'
import { allText, openPdf } from '../support/read-pdf.ts'

const TITLE = vi.hoisted(() => 'report.step.humming' as WordKey)

// A step nobody has: what it takes is its name, one declaration and its texts.
vi.mock('../../src/job/log-steps.ts', async (original) => {
  const real = await original<typeof import('../../src/job/log-steps.ts')>()
  return { ...real, STEPS: [...real.STEPS, 'humming'] }
})
vi.mock('../../src/test-log/steps/index.ts', async (original) => {
  const real = await original<typeof import('../../src/test-log/steps/index.ts')>()
  const { partState } = await import('../../src/test-log/outcome-words.ts')
  const { partOutcomes, readParts } = await import('../../src/test-log/steps/part.ts')
  const { cylinderReadings } = await import('../../src/test-log/step-kind.ts')
  const reader = {
    outcomes: partState({ hums: ['hums'] }),
    states: {
      hums: { says: 'tests.humming.hums', evidence: 'leak-down-high', finding: 'out of limits' },
      'in order': { says: 'tests.humming.fine', evidence: 'leak-down-in-order', finding: 'in limits' },
    },
    recorded: 'tests.humming.recorded',
  } as unknown as PartReader<'hums' | 'in order'>
  const humming: StepKind = {
    title: TITLE,
    needs: {},
    readings: cylinderReadings([]),
    outcome: partOutcomes(reader, ['hums', 'in order']),
    evidence: ['leak-down-high', 'leak-down-in-order'],
    cautions: [],
    read: (group, context) => readParts(group, context, reader),
  }
  return { ...real, STEP_KINDS: { ...real.STEP_KINDS, humming } }
})

const folder = mkdtempSync(join(tmpdir(), 'made-up-step-'))
afterAll(() => rmSync(folder, { recursive: true }))

test('a made-up step runs from the folder to the PDF', async () => {
  copyDemoJob(folder, 'MADE-UP')
  appendFileSync(
    join(folder, 'test-log.csv'),
    '2026-03-04T15:00:00Z,humming,,before,,cylinder 3,,,,,,,,hums,\n2026-03-04T15:05:00Z,humming,,before,,cylinder 3,,,,,,,,hm,\n',
  )
  const { problems } = await checkJob(folder, { captures: false })
  expect(problems.filter((p) => p.severity === 'refuse')).toEqual([])
  expect(problems.map((p) => p.code)).toContain('outcome-unread')
  const texts = loadTexts('en')
  const { result, files } = await runJob(
    folder,
    { page: 'A4', version: '0', embedCaptures: false, program: '', store: NO_STORE },
    {
      ...texts,
      templates: {
        ...texts.templates,
        [TITLE]: 'Humming',
        'tests.humming.hums': 'It hums (cylinders: {cylinders}).',
        'tests.humming.fine': 'It does not hum (cylinders: {cylinders}).',
        'tests.humming.recorded': 'It was listened to.',
      },
    },
  )
  const hummed = result.tests.filter((t) => (t.step as string) === 'humming')
  expect(hummed.map((t) => t.finding)).toEqual(['out of limits', 'recorded'])
  const speaks = result.causes.flatMap((c) => c.for).map((s) => s.text)
  expect(speaks.join(' ')).toContain('The cylinder leaks')
  const pages = await allText(await openPdf(files.get('report.pdf') as Uint8Array))
  expect(pages).toContain('Humming')
  expect(pages).toContain('It hums (cylinders: 3).')
}, 120_000)
