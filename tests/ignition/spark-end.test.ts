import { describe, expect, test } from 'vitest'
import type { EndSamples } from '../../src/ignition/end-costs.ts'
import { kinkCosts } from '../../src/ignition/kink-fit.ts'
import { sparkEnds } from '../../src/ignition/spark-end.ts'
import { makeRandom } from '../../src/maths/random.ts'

/**
 * Truth: closed form. A line that sags by a known slope until its end; from there a free ring that begins at the line's
 * own level with the slope of the current left in the coil, i / C. At its first zero the cable's capacity leaves the ring,
 * as it does where a distributor's rotor gap goes out, and it goes on 1.5 times as fast.
 */
const OMEGA = 2 * Math.PI * 2400
const FASTER = 1.5

interface Shape {
  lineKv: number
  slopeKvPerMs: number
  overshootKv: number
  hashKv?: number
}

function ringKv(s: number, { lineKv, overshootKv }: Shape): number {
  const amplitude = Math.hypot(lineKv, overshootKv)
  const angle = OMEGA * s - Math.atan2(overshootKv, lineKv)
  const turned = angle < Math.PI / 2 ? angle : Math.PI / 2 + FASTER * (angle - Math.PI / 2)
  return amplitude * Math.exp(-900 * s) * Math.cos(turned)
}

/** One event's samples with its end a fraction of a sample off, and where that end is. */
function sampled(
  shape: Shape,
  { sampleS, noiseKv, seed }: { sampleS: number; noiseKv: number; seed: number },
) {
  const random = makeRandom(seed)
  const end = 0.6e-3 / sampleS + random.uniform()
  const kv = Float64Array.from({ length: Math.round(2e-3 / sampleS) }, (_, i) => {
    const s = (i - end) * sampleS
    const level =
      s < 0
        ? shape.lineKv + shape.slopeKvPerMs * s * 1e3 + (shape.hashKv ?? 0) * random.gaussian()
        : ringKv(s, shape)
    return Math.round((level + noiseKv * random.gaussian()) / 0.01) * 0.01
  })
  const flank = kv.findIndex((v, i) => i > end && v < 0.4 * shape.lineKv)
  const samples: EndSamples = {
    kv,
    sampleS,
    flank,
    restKv: 0,
    noiseKv: Math.hypot(noiseKv, 0.01 / Math.sqrt(12)),
  }
  return { samples, end }
}

/** How far off the ends lie, us, in rising order. */
function errorsUs(
  shapes: readonly Shape[],
  { sampleS, noiseKv, omega }: { sampleS: number; noiseKv: number; omega: number },
): number[] {
  const events = shapes.map((shape, i) => sampled(shape, { sampleS, noiseKv, seed: i + 1 }))
  const found = sparkEnds(
    events.map((e) => e.samples),
    { omega, alpha: 900 },
  )
  return events.map((e, i) => (found[i]! - e.end) * sampleS * 1e6).sort((a, b) => a - b)
}

const alike = (shape: Shape, count: number): Shape[] =>
  Array.from({ length: count }, (_, i) => ({ ...shape, lineKv: shape.lineKv * (1 + 0.01 * ((i % 5) - 2)) }))
const within = (errors: readonly number[], us: number): boolean =>
  Math.abs(errors[0]!) < us && Math.abs(errors.at(-1)!) < us

describe('the end of a spark is where the line kinks, not where the ring peaks', () => {
  // The top of the ring follows 33 us after the end at the overshoot of 0.9 kV, 15 us at 0.4 kV.
  test.each([
    ['a small hook, 500 kS/s', { lineKv: 1.8, slopeKvPerMs: 0.1, overshootKv: 0.4 }, 2e-6, 8],
    ['a tall hook, 500 kS/s', { lineKv: 1.8, slopeKvPerMs: 0.1, overshootKv: 2.2 }, 2e-6, 4],
    ['a falling line, 250 kS/s', { lineKv: 1.0, slopeKvPerMs: -1.2, overshootKv: 0.9 }, 4e-6, 6],
    ['a climbing line, 1 MS/s', { lineKv: 2.5, slopeKvPerMs: 1.6, overshootKv: 0.9 }, 1e-6, 6],
    ['100 kS/s', { lineKv: 1.8, slopeKvPerMs: 0.1, overshootKv: 0.9 }, 10e-6, 12],
  ])('%s', (_, shape, sampleS, us) => {
    expect(within(errorsUs(alike(shape, 30), { sampleS, noiseKv: 0.014, omega: OMEGA }), us)).toBe(true)
  })

  test('the ring need not be known well: its later swings are faster where the cable has left it', () => {
    const errors = errorsUs(alike({ lineKv: 1.8, slopeKvPerMs: 0.1, overshootKv: 0.9 }, 30), {
      sampleS: 2e-6,
      noiseKv: 0.014,
      omega: 1.25 * OMEGA,
    })
    expect(within(errors, 6)).toBe(true)
  })

  test('firing and wasted lines of one lead, each with its own lead over the ring', () => {
    const firing = alike({ lineKv: 1.5, slopeKvPerMs: 0.1, overshootKv: 0.8 }, 15)
    const wasted = alike({ lineKv: 0.55, slopeKvPerMs: -0.4, overshootKv: 0.8 }, 15)
    expect(within(errorsUs([...firing, ...wasted], { sampleS: 2e-6, noiseKv: 0.014, omega: OMEGA }), 6)).toBe(
      true,
    )
  })

  test('lines of one height that end at unlike currents', () => {
    const falling = alike({ lineKv: 1.0, slopeKvPerMs: -0.8, overshootKv: 1.6 }, 15)
    const wasted = alike({ lineKv: 0.9, slopeKvPerMs: -0.4, overshootKv: 0.4 }, 15)
    expect(
      within(errorsUs([...falling, ...wasted], { sampleS: 2e-6, noiseKv: 0.014, omega: OMEGA }), 8),
    ).toBe(true)
  })

  test('turbulence ends with the arc', () => {
    const errors = errorsUs(alike({ lineKv: 1.8, slopeKvPerMs: 0.1, overshootKv: 0.9, hashKv: 0.12 }, 40), {
      sampleS: 2e-6,
      noiseKv: 0.014,
      omega: OMEGA,
    })
    expect(within(errors, 12)).toBe(true)
  })
})

describe('kinkCosts', () => {
  // Truth: a curve of the very form that is fitted, without noise.
  test('is least where the kink is', () => {
    const kv = Float64Array.from({ length: 80 }, (_, i) =>
      i < 50.3 ? 1.5 - 0.001 * (i - 50.3) : 1.5 + 0.02 * (i - 50.3) - 0.001 * (i - 50.3) ** 2,
    )
    const kinks = Array.from({ length: 41 }, (_, i) => 46.3 + 0.2 * i)
    const costs = kinkCosts(kv, kinks, 1e-3)
    expect(kinks[costs.indexOf(Math.min(...costs))]).toBeCloseTo(50.3, 9)
  })

  test('settles nothing with too few samples beside the kink', () => {
    expect([...kinkCosts(new Float64Array(6), [1, 3, 5], 0.01)]).toEqual([0, 0, 0])
  })
})
