import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { captureText } from '../../src/demo/capture-file.ts'
import { plainStyle } from '../../src/demo/scenario.ts'
import { inspectJob } from '../../src/job/inspect-job.ts'
import { distributorCapture } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { draftJob } from '../../src/peek/draft-job.ts'
import type { Answers, DraftedFile } from '../../src/peek/drafted.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { say } from '../../src/texts/say.ts'
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
        takenFrom: 'file' as const,
        peeked: (await peekFile(path, { file: file as string, sampleRateHz: undefined })).peeked,
      }
    }),
  )
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const texts = loadTexts('en')
const drafted = (answers: Answers, of: readonly DraftedFile[] = files) =>
  draftJob(texts, of, {
    answers,
    about: {
      folder: 'KB-26-0001',
      opened: { day: '2026-03-04', ofRecording: true },
      schema: 'job.schema.json',
    },
  })

async function inspected(answers: Answers) {
  writeFileSync(join(work, 'job.yaml'), drafted(answers).text)
  writeFileSync(join(work, 'test-log.csv'), 'at,step\n')
  return inspectJob(work)
}
const ALL: Answers = {
  workOrder: '24-1 # no remark',
  shop: 'Invented: Garage',
  technician: { name: 'A. Invented' },
  complaint: "it's {odd}",
  facts: {
    make: '- Invented',
    model: '2020',
    cylinders: 4,
    firingOrder: [1, 3, 4, 2],
    ignition: 'distributor',
    fuel: 'E10',
    taken: [],
  },
}

describe('a draft without answers', () => {
  test('is a job that runs: nothing refuses it, and nothing is told of it a second time', async () => {
    const { problems } = await inspected({})
    expect(problems.filter((p) => p.severity === 'refuse')).toEqual([])
    expect(problems.map((p) => p.code)).toEqual(['default-uncertainty'])
  })
  test('what was taken for granted is listed once, each with its reason', () => {
    const granted = drafted({}).granted.map(({ line, why }) => `${line}: ${say(texts, why)}`)
    expect(granted).toContain('engine.cylinders: 4: 4 events to a sync pulse')
    expect(granted.length).toBeGreaterThanOrEqual(9)
    expect(granted.length).toBe(new Set(granted).size)
  })
  test('what cannot be guessed is left open', () => {
    const { text } = drafted({}, [
      { file: 'captures/a.csv', taken: '2026-03-04T09:12:00Z', takenFrom: 'file', peeked: undefined },
    ])
    expect(text).toMatch(/^ {2}cylinders:$/m)
    expect(text).toMatch(/^ {4}time: \{ sample_rate_hz: \}$/m)
  })
})

test('an editor is told of the schema in the first line', () => {
  expect(drafted({}).text.split('\n')[0]).toBe('# yaml-language-server: $schema=job.schema.json')
})

test('a draft with every answer is a whole job; the captures say the rest', async () => {
  const { job, problems } = await inspected(ALL)
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
    stage: 'before',
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

test('what was said has no remark behind it', () => {
  expect(drafted(ALL).text).toMatch(/^ {2}cylinders: 4$/m)
})

test('wasted spark: pairs from the order', () => {
  expect(drafted({ ...ALL, facts: { ...ALL.facts!, ignition: 'wasted-spark' } }).text).toContain(
    '  pairs: [[1, 4], [3, 2]]  # half the order apart',
  )
})

test('stages by the names of the files', () => {
  const stages = ['idle before.csv', 'Leerlauf nach.csv', 'ralenti apr\u00e8s.csv', 'x.csv'].map(
    (name) => /stage: (\w+)/.exec(drafted({}, [{ ...files[0]!, file: `captures/${name}` }]).text)![1],
  )
  expect(stages).toEqual(['before', 'after', 'after', 'before'])
})
