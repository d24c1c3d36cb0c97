import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { DEMO_JOBS } from '../../src/demo/demo-jobs.ts'
import { jobFiles } from '../../src/demo/write-job.ts'
import { jobSchema } from '../../src/job/schema.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'

const inputs = fileURLToPath(new URL('../../inputs/', import.meta.url))
const stored = (folder: string): string[] =>
  readdirSync(inputs + folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      `${entry.parentPath}/${entry.name}`.replaceAll('\\', '/').replace(/\/+/g, '/').slice(inputs.length),
    )

test('inputs/ holds the demo jobs and nothing else', () => {
  expect(readdirSync(inputs).sort()).toEqual(DEMO_JOBS.map((demo) => demo.folder).sort())
})

test('all demo jobs together stay under 8 MB', () => {
  const bytes = DEMO_JOBS.flatMap((demo) => stored(demo.folder)).reduce(
    (sum, path) => sum + readFileSync(inputs + path).length,
    0,
  )
  expect(bytes).toBeLessThan(8e6)
})

test('no demo job says a value by an anchor: a newcomer copies single lines', () => {
  const anchored = DEMO_JOBS.filter(({ folder }) =>
    /: [&*]\w/.test(readFileSync(`${inputs}${folder}/job.yaml`, 'utf8')),
  )
  expect(anchored.map(({ folder }) => folder)).toEqual([])
})

describe.each(DEMO_JOBS.map((demo) => [demo.folder, demo] as const))('%s', (folder, demo) => {
  test('is made again byte for byte', () => {
    const made = jobFiles(demo)
    expect([...made.keys()].sort()).toEqual(stored(folder).sort())
    for (const [path, bytes] of made) expect(Buffer.compare(readFileSync(inputs + path), bytes), path).toBe(0)
  })

  test('job.yaml follows the schema and names exactly the files that are there', () => {
    const job = jobSchema.parse(parse(readFileSync(`${inputs}${folder}/job.yaml`, 'utf8')))
    const named = [...job.captures, ...(job.traces ?? [])].map((entry) => `${folder}/${entry.file}`)
    expect(
      stored(folder)
        .filter((path) => !/job\.yaml$|test-log\.csv$/.test(path))
        .sort(),
    ).toEqual(named.sort())
    for (const line of demo.log)
      if (line.trace !== undefined) expect(named).toContain(`${folder}/${line.trace}`)
  })

  test('every pickup sees at least 20 whole firing events of each of its cylinders', () => {
    for (const { parameters } of demo.captures.values()) {
      const { truth } = simulateCapture({
        ...parameters,
        recorder: { ...parameters.recorder, sampleHz: 1000 },
      })
      const counts = new Map<number, number>()
      for (const e of truth.events)
        if (e.complete && e.kind === 'firing') counts.set(e.cylinder, (counts.get(e.cylinder) ?? 0) + 1)
      expect(Math.min(...counts.values())).toBeGreaterThanOrEqual(20)
    }
  })

  test('limits in job.yaml are those of the simulated recorder', () => {
    for (const entry of demo.job.captures!) {
      const { secondary } = demo.captures.get(entry.file)!.parameters.recorder
      const top = secondary.high - (secondary.high - secondary.low) / 2 ** secondary.bits
      for (const channel of entry.channels) {
        if (channel.limits === undefined) continue
        expect(channel.limits[0]).toBe(secondary.low)
        expect(channel.limits[1]).toBeCloseTo(top, 3)
      }
    }
  })
})

describe('what the scenario needs', () => {
  const of = (folder: string) => DEMO_JOBS.find((demo) => demo.folder === folder)!

  test('at least five jobs; the shared lean cause is tested in at least 12 rows and checked after the repair', () => {
    expect(DEMO_JOBS.length).toBeGreaterThanOrEqual(5)
    const lean = of('brake-hose-leak-v8')
    expect(lean.log.length).toBeGreaterThanOrEqual(12)
    for (const step of [
      'spray',
      'cap',
      'uncap',
      'trim',
      'gas',
      'vacuum',
      'airflow',
      'smoke',
      'repair',
    ] as const) {
      expect(lean.log.map((line) => line.step)).toContain(step)
    }
    expect(lean.job.captures!.map((c) => c.stage)).toEqual(['before', 'after'])
  })

  test('sprays in the log stand where the traces have them', () => {
    for (const demo of DEMO_JOBS)
      for (const line of demo.log) {
        if (line.step !== 'spray' || line.trace === undefined) continue
        const spray = demo.traces
          .get(line.trace)!
          .sprays.find((s) => s.fromS === line.from_s && s.toS === line.to_s)
        expect(spray, `${demo.folder} ${line.at}`).toBeDefined()
        expect(spray!.responseRpm > 0).toBe(line.outcome === 'response')
      }
  })

  test('the shared cause leans every cylinder well over 20 % before and none after', () => {
    const lateRises = [...of('brake-hose-leak-v8').captures.values()].map(({ parameters }) =>
      simulateCapture({
        ...parameters,
        recorder: { ...parameters.recorder, sampleHz: 1000 },
      }).truth.events.flatMap((e) => (e.levels === undefined ? [] : [e.levels.lateRisePct])),
    )
    expect(Math.min(...lateRises[0]!)).toBeGreaterThan(22)
    expect(Math.max(...lateRises[1]!)).toBeLessThan(18)
  })

  test('one job is recorded at 2500 rpm with one bank lean beside a level one', () => {
    const held = of('bank-one-held-revs-v6')
    expect(held.job.captures?.map((c) => c.condition)).toEqual(['2500 rpm'])
    const { parameters } = held.captures.get('captures/held-2500.csv.gz')!
    expect(parameters.engine.speed.rpm).toBe(2500)
    const { events } = simulateCapture({
      ...parameters,
      recorder: { ...parameters.recorder, sampleHz: 1000 },
    }).truth
    const rises = (bank: string) =>
      events.flatMap((e) =>
        e.levels && held.job.engine.banks![bank]!.includes(e.cylinder) ? [e.levels.lateRisePct] : [],
      )
    expect(Math.min(...rises('1'))).toBeGreaterThan(30)
    expect(Math.max(...rises('2'))).toBeLessThan(15)
  })

  test('one job is recorded as triggered frames, each a whole working cycle and one in two of them', () => {
    const { parameters } = of('runner-three-frames').captures.get('captures/idle-frames.csv.gz')!
    const { faults, sampleHz } = parameters.recorder
    const lengths = faults.slice(1).map(({ atS }, k) => atS - faults[k]!.atS - faults[k]!.rows / sampleHz)
    expect(lengths.length).toBeGreaterThanOrEqual(12)
    const cycleS = 120 / parameters.engine.speed.rpm
    for (const lengthS of lengths) expect(lengthS).toBeGreaterThan(0.9 * cycleS)
    expect(lengths.reduce((sum, s) => sum + s, 0)).toBeLessThan(0.55 * parameters.durationS)
  })

  test('the shared cause is found on an idle that lopes, and gone on a steady one', () => {
    const { speed } = of('brake-hose-leak-v8').captures.get('captures/idle-before.csv.gz')!.parameters.engine
    expect(speed.swingRpm).toBeGreaterThanOrEqual(300)
    expect(speed.swingPeriodS).toBeGreaterThanOrEqual(1)
    expect(speed.swingPeriodS).toBeLessThanOrEqual(3)
    expect(speed.mixtureKvPerRpm).toBeGreaterThan(0)
    const after = of('brake-hose-leak-v8').captures.get('captures/idle-after.csv.gz')!.parameters.engine
    expect(after.speed.swingRpm).toBeLessThan(20)
  })
})
