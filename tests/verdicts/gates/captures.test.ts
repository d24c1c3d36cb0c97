import { describe, expect, test } from 'vitest'
import type { Capture } from '../../../src/capture/capture.ts'
import type { QualityRemark } from '../../../src/ignition/event.ts'
import {
  distributorCapture,
  withCylinders,
  type CaptureParameters,
} from '../../../src/model/capture-parameters.ts'
import type { Digitiser } from '../../../src/model/recorder.ts'
import { GOOD_SYNC_CLAMP, type SyncModel } from '../../../src/model/sync.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { REMARK_WORDS } from '../../../src/texts/remark-words.ts'
import { sayAgain } from '../../../src/texts/say.ts'
import { judgeSimulated, type Judged } from '../../support/judge-simulated.ts'

/** A four-cylinder idle, cylinder 3 lean by about 50 %, whatever is wrong with the record. */
function lean(
  options: {
    sampleHz?: number
    digitiser?: Partial<Digitiser>
    rpm?: number
    durationS?: number
    parameters?: Partial<CaptureParameters>
  } = {},
): CaptureParameters {
  const base = distributorCapture({
    cylinders: 4,
    seed: 11,
    durationS: options.durationS ?? 1.9,
    rpm: options.rpm ?? 780,
  })
  const parameters = withCylinders(base, new Map([[3, { mixtureKv: 0.9 }]]))
  return {
    ...parameters,
    ...options.parameters,
    recorder: {
      ...base.recorder,
      sampleHz: options.sampleHz ?? base.recorder.sampleHz,
      secondary: { ...base.recorder.secondary, ...options.digitiser },
    },
  }
}

function judged(parameters: CaptureParameters, change?: (capture: Capture) => Capture): Judged {
  const outcome = judgeSimulated(parameters, change)
  if (outcome.refused) throw new Error(outcome.refused.join(' '))
  return outcome
}

/** The same engine with a speed that changes. */
function running(
  speed: Partial<CaptureParameters['engine']['speed']>,
  durationS?: number,
): CaptureParameters {
  const steady = lean(durationS === undefined ? {} : { durationS })
  return { ...steady, engine: { ...steady.engine, speed: { ...steady.engine.speed, ...speed } } }
}

const verdicts = ({ judged }: Judged) => judged.map((j) => j.judgement.verdict)
const codes = ({ remarks }: Judged) => remarks.map((r) => r.code)
const NONE = ['not judged', 'not judged', 'not judged', 'not judged']
const RIGHT = ['level', 'level', 'lean', 'level']

test('a good record passes every gate', () => {
  const outcome = judged(lean())
  expect(codes(outcome)).toEqual([])
  expect(verdicts(outcome)).toEqual(RIGHT)
})

describe('gated: not judged, with the reason', () => {
  test.each<[string, string, CaptureParameters, ((capture: Capture) => Capture)?]>([
    ['spark lines of a dozen samples', 'line-slow', lean({ sampleHz: 12_000 })],
    ['steps of 600 V', 'steps-coarse', lean({ digitiser: { bits: 6 } })],
    [
      'a start',
      'cranking',
      lean({ rpm: 220, durationS: 6 }),
      (c) => ({ ...c, entry: { ...c.entry, condition: 'cranking' } }),
    ],
    ['half a second', 'few-events', lean({ durationS: 0.6 })],
    ['spark lines above the range', 'clipped-line', lean({ digitiser: { low: -1.5, high: 1.5 } })],
  ])('%s', (_, code, parameters, change) => {
    const outcome = judged(parameters, change)
    expect(codes(outcome)).toContain(code)
    expect(verdicts(outcome)).toEqual(NONE)
    expect(outcome.judged.map((j) => j.judgement.reason.args['why'])).toEqual(
      NONE.map(() => ({ key: `gate.${code}`, args: {} })),
    )
  })
})

describe('what can be judged is not gated', () => {
  test.each<[string, string | undefined, CaptureParameters, ((capture: Capture) => Capture)?]>([
    ['8 bits over 10 kV either way', undefined, lean({ digitiser: { bits: 8, low: -10, high: 10 } })],
    ['steps of 300 V, widened by their own doubt', undefined, lean({ digitiser: { bits: 7 } })],
    ['25 kS/s', 'sampling-slow', lean({ sampleHz: 25_000 })],
    ['tops cut at 6 kV', 'clipped-top', lean({ digitiser: { low: -6, high: 6 } })],
    ['mains hum of 0.3 kV', 'mains-hum', lean({ digitiser: { humPeak: 0.3 } })],
    [
      'a level that moves from event to event',
      'level-drift',
      lean({ digitiser: { driftRms: 0.6, driftS: 0.03 } }),
    ],
    ['a level that drifts slowly', 'level-drift', lean({ digitiser: { driftRms: 0.4, driftS: 3 } })],
    ['a hunting idle', undefined, running({ swingRpm: 150, swingPeriodS: 1.2 })],
    ['a cold engine', 'cold-engine', lean(), (c) => ({ ...c, entry: { ...c.entry, engine: 'cold' } })],
    [
      'a snap of the throttle',
      'not-at-idle',
      lean(),
      (c) => ({ ...c, entry: { ...c.entry, condition: 'snap' } }),
    ],
    ['2500 rpm called idle', 'not-at-idle', lean({ rpm: 2500, durationS: 0.7 })],
    ['an idle that hunts by 520 rpm', undefined, running({ swingRpm: 520, swingPeriodS: 1.5 })],
    ['one that hunts by 600 rpm twice a second', undefined, running({ swingRpm: 600, swingPeriodS: 0.5 })],
    [
      'one whose mixture follows the speed',
      'rise-with-speed',
      running({ swingRpm: 300, swingPeriodS: 1, mixtureKvPerRpm: 0.0008 }),
    ],
    [
      'a start before the idle',
      'events-left-out',
      running({ start: { crankedS: 1.2, crankRpm: 190, flareRpm: 450 } }, 5),
    ],
    [
      'a blip in the middle',
      'events-left-out',
      running({ changes: [{ fromS: 1.2, toS: 1.5, rpm: 2600 }] }, 5),
    ],
    ['volts without a ratio', 'ratio-unknown', lean(), (c) => withoutRatio(c, 1e-3)],
    ['volts without a ratio, ten times as high', 'ratio-unknown', lean(), (c) => withoutRatio(c, 1e-2)],
  ])('%s', (_, code, parameters, change) => {
    const outcome = judged(parameters, change)
    if (code) expect(codes(outcome)).toContain(code)
    expect(verdicts(outcome)).toEqual(RIGHT)
  })
})

/**
 * The whole list of what a capture may lack: the remark, what it forbids, and the evidence it gives. Evidence is held
 * against what was put into the simulation, so that a remark with another's figures fails.
 */
describe('each flaw is named, with its evidence and what it forbids', () => {
  const near = (wanted: number, share = 0.1) =>
    expect.closeTo(wanted, Math.max(0, -Math.floor(Math.log10(2 * share * wanted))))
  /** A voltage as it may be said. */
  const about = (value: number, unit: 'kV' | 'V') => ({ value: near(value), unit })
  const within = (low: number, high: number) => ({
    asymmetricMatch: (v: unknown) => typeof v === 'number' && v >= low && v <= high,
  })
  const stamped =
    (extraS: number) =>
    (c: Capture): Capture => ({ ...c, jumps: [{ row: Math.round(0.02 / c.sampleS), extraS }] })
  const sync = (change: Partial<SyncModel>) =>
    lean({ parameters: { sync: { ...GOOD_SYNC_CLAMP, ...change } } })
  test.each<
    [
      string,
      string,
      QualityRemark['forbids'],
      Record<string, unknown>,
      CaptureParameters,
      ((capture: Capture) => Capture)?,
    ]
  >([
    [
      'line too slow',
      'line-slow',
      ['mixture'],
      { rateKhz: 12, samples: within(12, 20), least: 24 },
      lean({ sampleHz: 12_000 }),
    ],
    [
      'top too slow',
      'sampling-slow',
      ['firing'],
      { rateKhz: 25, count: within(40, 52) },
      lean({ sampleHz: 25_000 }),
    ],
    [
      'clipped top',
      'clipped-top',
      ['firing'],
      { limit: about(6, 'kV'), count: within(40, 52) },
      lean({ digitiser: { low: -6, high: 6 } }),
    ],
    [
      'clipped spark line',
      'clipped-line',
      ['mixture'],
      { limit: about(1.5, 'kV'), count: within(40, 52) },
      lean({ digitiser: { low: -1.5, high: 1.5 } }),
    ],
    [
      'few events',
      'few-events',
      ['all'],
      { fewest: within(2, 4), minEvents: 10, durationS: near(0.6), recordS: within(2, 4) },
      lean({ durationS: 0.6 }),
    ],
    [
      'drifting level',
      'level-drift',
      [],
      { range: { value: within(1, 5), unit: 'kV' }, stepPct: within(10, 60) },
      lean({ digitiser: { driftRms: 0.6, driftS: 0.03 } }),
    ],
    [
      'unknown pickup ratio',
      'ratio-unknown',
      ['firing'],
      { channel: 'secondary_1' },
      lean(),
      (c) => withoutRatio(c, 1e-3),
    ],
    [
      'missing sync',
      'sync-bridged',
      [],
      { missing: within(1, 6), seen: within(4, 11) },
      sync({ missingShare: 0.3 }),
    ],
    ['double sync', 'sync-extra', [], { extra: within(2, 14), seen: within(10, 14) }, sync({ extraPerS: 4 })],
    [
      'mains hum',
      'mains-hum',
      [],
      { humHz: near(50, 0.01), peak: about(0.3, 'kV') },
      lean({ digitiser: { humPeak: 0.3 } }),
    ],
    [
      'dropped samples',
      'clock-jumps',
      [],
      { gaps: 1, repeats: 0, missingMs: near(7, 0.001) },
      lean(),
      stamped(7e-3),
    ],
    [
      'a stamp that repeats',
      'clock-jumps',
      [],
      { gaps: 0, repeats: 1, missingMs: 0 },
      lean(),
      stamped(-2e-6),
    ],
    [
      'steps coarser than the effect',
      'steps-coarse',
      ['mixture'],
      { step: about(0.625, 'kV'), stepPct: within(30, 50), limitPct: 20 },
      lean({ digitiser: { bits: 6 } }),
    ],
    ['cold engine', 'cold-engine', [], {}, lean(), (c) => ({ ...c, entry: { ...c.entry, engine: 'cold' } })],
    [
      'not at idle',
      'not-at-idle',
      [],
      { meanRpm: within(2480, 2520), idleMostRpm: 1400 },
      lean({ rpm: 2500, durationS: 0.7 }),
    ],
  ])('%s: %s', (...[, code, forbids, evidence, parameters, change]) => {
    const remark = judged(parameters, change).remarks.find((r) => r.code === code)!
    expect(remark.forbids).toEqual(forbids)
    expect(remark.args).toMatchObject(evidence)
    for (const language of LANGUAGES) {
      const said = sayAgain(loadTexts(language), { key: REMARK_WORDS[remark.code].says, args: remark.args })
      // The last sentence says what to do instead; in English it is an order.
      if (language === 'en')
        expect(
          said.split(/(?<=[.)]) /).some((sentence) => /^(Record|State|Check|Keep|Let)/.test(sentence)),
          said,
        ).toBe(true)
      expect(said).not.toMatch(/[{}]|NaN|undefined/)
    }
  })
})

/** The same capture as a clamp of unstated ratio hands it over: volts taken for what they are. */
function withoutRatio(capture: Capture, ratio: number): Capture {
  const channels = capture.channels.map((c) =>
    c.entry.carries !== 'secondary'
      ? c
      : {
          ...c,
          entry: { ...c.entry, unit: 'V' as const },
          data: c.data.map((v) => v * ratio),
          quantum: c.quantum * ratio,
          limits: c.limits && ([c.limits[0] * ratio, c.limits[1] * ratio] as const),
        },
  )
  return { ...capture, channels, entry: { ...capture.entry, channels: channels.map((c) => c.entry) } }
}

describe('a clock that jumps', () => {
  /** Rows from `row` on are lost; the stamps show it. */
  const dropped = (capture: Capture, row: number, count: number): Capture => ({
    ...capture,
    rows: capture.rows - count,
    jumps: [{ row, extraS: count * capture.sampleS }],
    channels: capture.channels.map((c) => ({
      ...c,
      data: Float32Array.from([...c.data.subarray(0, row), ...c.data.subarray(row + count)]),
    })),
  })

  test('an event across a gap is left out; the times of the others and the verdicts stand', () => {
    let lost = -1
    const parameters = lean()
    const whole = judged(parameters)
    const outcome = judged(parameters, (capture) => {
      // In the middle of the burn of the first event after one second: the line stands at 1 kV or more there.
      const { data } = capture.channels[0]!
      lost = data.findIndex((v, i) => i > 1 / capture.sampleS && v > 5) + Math.round(0.5e-3 / capture.sampleS)
      return dropped(capture, lost, Math.round(20e-3 / capture.sampleS))
    })
    expect(lost).toBeGreaterThan(1 / 2e-6)
    expect(outcome.remarks.find((r) => r.code === 'clock-jumps')).toMatchObject({
      args: { gaps: 1, events: 1 },
    })
    expect(verdicts(outcome)).toEqual(RIGHT)
    const rpm = (o: Judged) =>
      o.judged.map(({ measures: { figures } }) => (figures.rpm.ok ? figures.rpm.value : 0))
    rpm(outcome).forEach((v, i) => expect(Math.abs(v / rpm(whole)[i]! - 1)).toBeLessThan(0.01))
  })
})
