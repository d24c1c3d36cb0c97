import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { captureText } from '../../src/demo/capture-file.ts'
import { plainStyle } from '../../src/demo/scenario.ts'
import { inspectJob } from '../../src/job/inspect-job.ts'
import { distributorCapture } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { DRAFT_LOG, draftJob } from '../../src/peek/draft-job.ts'
import type { Answers, DraftedFile } from '../../src/peek/drafted.ts'
import { peekFile } from '../../src/peek/peek-file.ts'

let work: string
let files: DraftedFile[]
const capture = captureText(simulateCapture(distributorCapture({ cylinders: 4, seed: 3, durationS: 0.6 })), {
  ...plainStyle('secondary_kv', 'sync_v'),
  time: { name: 'time_us', unit: 'us', perS: 1e6, decimals: 0 },
})
const trace = Buffer.from(
  `time_s,rpm\n${Array.from({ length: 200 }, (_, i) => `${(i / 20).toFixed(2)},${800 + (i % 5)}`).join('\n')}\n`,
)

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'burnline-draft-'))
  files = await Promise.all(
    [
      ['captures/idle.csv', capture],
      ['traces/spray.csv', trace],
    ].map(async ([file, bytes]) => {
      const path = join(work, file as string)
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, bytes as Uint8Array)
      return {
        file: file as string,
        taken: '2026-03-04T09:12:00Z',
        peeked: (await peekFile(path, { file: file as string, sampleRateHz: undefined })).peeked,
      }
    }),
  )
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

async function inspected(answers: Answers, log = DRAFT_LOG) {
  writeFileSync(join(work, 'job.yaml'), draftJob(files, answers, '2026-03-05'))
  writeFileSync(join(work, 'test-log.csv'), log)
  return inspectJob(work)
}
const ALL: Answers = {
  workOrder: '24-1 # no remark',
  shop: 'Invented: Garage',
  technician: 'A. Invented',
  make: '- Invented',
  model: '2020',
  complaint: "it's {odd}",
  cylinders: 4,
  firingOrder: [1, 3, 4, 2],
  ignition: 'distributor',
  fuel: 'E10',
}

describe('a draft without answers', () => {
  test('what is missing is missing, and nothing else is wrong in job.yaml', async () => {
    const { problems } = await inspected({})
    const refused = problems.filter((p) => p.file === 'job.yaml' && p.severity === 'refuse')
    expect(refused.map((p) => [p.code, 'key' in p.args && p.args.key])).toEqual(
      ['work_order', 'shop.name', 'technician.name', 'engine.fuel', 'complaint'].map((key) => [
        'missing-key',
        key,
      ]),
    )
  })
  test('each guess is told of', async () => {
    const { problems } = await inspected({})
    expect(problems.filter((p) => p.code === 'guess-left').length).toBeGreaterThanOrEqual(9)
  })
  test('no example row of the log passes for a test', async () => {
    const { problems } = await inspected({})
    expect(problems.filter((p) => p.file === 'test-log.csv').map((p) => `${p.line} ${p.code}`)).toEqual([
      '2 wrong-cell',
      '3 wrong-cell',
      '4 wrong-cell',
      '5 wrong-cell',
    ])
  })
})

test('a draft with every answer is a whole job; the captures say the rest', async () => {
  const { job, problems } = await inspected(ALL, DRAFT_LOG.split('\n').slice(0, 1).join('\n'))
  expect(problems.filter((p) => p.severity === 'refuse')).toEqual([])
  expect(job).toMatchObject({
    work_order: '24-1 # no remark',
    complaint: "it's {odd}",
    vehicle: { make: '- Invented', model: '2020' },
    engine: { cylinders: 4, firing_order: [1, 3, 4, 2] },
  })
  expect(job!.captures[0]).toMatchObject({
    time: { column: 'time_us', unit: 'us' },
    condition: 'idle',
    channels: [
      { column: 'secondary_kv', carries: 'secondary', cylinders: 'all', unit: 'kV' },
      { column: 'sync_v', carries: 'sync', cylinder: 1, unit: 'V' },
    ],
  })
  expect(job!.traces![0]).toMatchObject({
    file: 'traces/spray.csv',
    channels: [{ column: 'rpm', carries: 'speed', unit: 'rpm' }],
  })
}, 10_000)

test('answers are not marked as guesses; the number of cylinders comes from the events to a pulse', () => {
  expect(draftJob(files, ALL, '2026-03-05')).toMatch(/^ {2}cylinders: 4$/m)
  expect(draftJob(files, {}, '2026-03-05')).toMatch(
    /^ {2}cylinders: 4 {2}# guess: 4 events to a sync pulse$/m,
  )
})

test('wasted spark: pairs from the order', () => {
  expect(draftJob(files, { ...ALL, ignition: 'wasted-spark' }, '2026-03-05')).toContain(
    '  pairs: [[1, 4], [3, 2]]  # guess',
  )
})

test('a file that cannot be read is still named', () => {
  expect(
    draftJob(
      [{ file: 'captures/a.csv', taken: '2026-03-04T09:12:00Z', peeked: undefined }],
      {},
      '2026-03-05',
    ),
  ).toContain('- file: "captures/a.csv"')
})
