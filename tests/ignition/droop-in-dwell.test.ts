import { describe, expect, test } from 'vitest'
import { channelEvents } from '../../src/ignition/channel-events.ts'
import { droopInDwell, type DwellSeen } from '../../src/ignition/droop-in-dwell.ts'
import { findDroop } from '../../src/ignition/droop.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { distributorCapture } from '../../src/model/capture-parameters.ts'
import { droop as highPassed } from '../../src/model/pickup.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/** Truth: the model's pickup, a first-order high-pass, before a recorder whose steps are too coarse and quiet for the rest to show it. */
function recorded(droopS: number, currentLimitA?: number) {
  const base = distributorCapture({ cylinders: 4, seed: 7, durationS: 1.6 })
  if (base.ignition.kind !== 'distributor') throw new Error('no distributor')
  const coil = { ...base.ignition.coil, ...(currentLimitA !== undefined && { currentLimitA }) }
  const capture = asCapture(
    simulateCapture({
      ...base,
      ignition: { kind: 'distributor', coil },
      pickups: base.pickups.map((p) => ({ ...p, droopS })),
      recorder: {
        ...base.recorder,
        sampleHz: 100_000,
        secondary: { ...base.recorder.secondary, bits: 8, noiseRms: 0.01 },
      },
    }),
  )
  const index = capture.channels.findIndex((c) => c.entry.carries === 'secondary')
  const { signal, found, droop, recorder } = channelEvents(capture, capture.channels[index]!, index)
  const dwells = found.flatMap(({ restAt, restKv, dwellStart, breakdown }): DwellSeen[] =>
    restAt === undefined || dwellStart === undefined ? [] : [{ restAt, restKv, dwellStart, breakdown }],
  )
  return { held: droopInDwell(signal, dwells, { meanKv: 0, quantumKv: recorder.quantumKv }), droop: droop! }
}

describe('droop by the level at the end of a dwell', () => {
  test.each([4, 8, 16, 40])('%d ms is told where the driver holds its current', (ms) => {
    const { held, droop } = recorded(ms / 1000)
    expect(Math.abs(held!.perS - 1000 / ms)).toBeLessThan(1.96 * held!.u)
    expect(held!.u).toBeLessThan(40)
    expect(droop.low).toBeLessThan(1000 / ms)
    expect(droop.high).toBeGreaterThan(1000 / ms)
  })

  test('a pickup that holds is said to: what is left in doubt is small', () => {
    const { held, droop } = recorded(Infinity)
    expect(Math.abs(held!.perS)).toBeLessThan(held!.u)
    expect([droop.perS, droop.low]).toEqual([0, 0])
    expect(droop.high).toBeLessThan(60)
  })

  test('a driver that goes on charging shows no held current, with droop or without', () => {
    expect(recorded(Infinity, Infinity).held).toBeUndefined()
    expect(recorded(0.005, Infinity).held).toBeUndefined()
  })
})

describe('what is left in doubt', () => {
  /** Truth: pulses of 0.25 kV ms every 40 ms through a first-order high-pass, noise upon it; the rest after them alone shows it. */
  const doubt = (perS: number, seed: number) => {
    const random = makeRandom(seed)
    const sampleS = 1e-5
    const every = 4000
    const pulses = Float64Array.from({ length: 42 * every }, (_, i) =>
      i % every >= 100 && i % every < 200 ? -0.25 : 0,
    )
    const faded = perS === 0 ? pulses : highPassed(pulses, 1 / perS, sampleS)
    const data = Float32Array.from(faded, (v) => v + 0.02 * random.gaussian())
    const rests = Array.from({ length: 40 }, (_, i) => {
      const from = (i + 1) * every
      const restKv = data.subarray(from, from + 90).reduce((sum, v) => sum + v, 0) / 90
      return { restAt: from + 45, restKv, quiet: { from: from + 500, to: from + 3900 } }
    })
    const droop = findDroop(
      { data, sign: 1, sampleS },
      { rests, dwells: [] },
      { noiseKv: 0.02, quantumKv: 0 },
    )
    if (!droop) throw new Error('nothing said')
    return droop
  }

  test('it has one side: nothing below none, and above as far as the record leaves open', () => {
    const all = Array.from({ length: 60 }, (_, i) => doubt(0, i))
    expect(all.every((d) => d.low === 0 || d.perS > 0)).toBe(true)
    expect(all.filter((d) => d.perS === 0 && d.high > 0).length).toBeGreaterThan(50)
  })

  test.each([0, 6, 12, 30])('a droop of %d/s lies within it', (perS) => {
    const all = Array.from({ length: 60 }, (_, i) => doubt(perS, 100 + i))
    expect(all.filter((d) => d.low <= perS && perS <= d.high).length).toBeGreaterThanOrEqual(54)
  })
})
