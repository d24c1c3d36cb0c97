import { describe, expect, test } from 'vitest'
import { findClipping, settleMarked } from '../../src/capture/clipping.ts'
import { smallestStep } from '../../src/capture/quantum.ts'
import type { ValueRange } from '../../src/capture/collect.ts'
import { randoms } from './randoms.ts'

const noise = (random: () => number): number => random() + random() + random() - 1.5

/**
 * Pulses like firing lines with spark lines behind them, of heights spread over 8 to 12, in steps of `step`,
 * cut at `high`: invented, 5 samples up, 3 down, 100 of a slowly changing line, 400 of rest.
 */
function pulses(about: {
  count: number
  step: number
  high: number
  seed: number
  noise?: number
}): Float32Array {
  const random = randoms(about.seed)
  const values: number[] = []
  for (let event = 0; event < about.count; event++) {
    const height = 8 + 4 * random()
    const line = (i: number) => 2 + 0.001 * i
    for (let i = 1; i <= 5; i++) values.push((height * i) / 5)
    for (let i = 0; i < 3; i++) values.push(height + ((2 - height) * (i + 1)) / 3)
    for (let i = 0; i < 100; i++) values.push(line(i))
    for (let i = 0; i < 400; i++) values.push(0)
  }
  const spread = about.noise ?? 0.05
  return Float32Array.from(values, (v) =>
    Math.min(about.high, Math.round((v + spread * noise(random)) / about.step) * about.step),
  )
}

/** What a channel spans, over stretches of 100 samples. */
function rangeOf(data: Float32Array): ValueRange {
  const span = (from: number, to: number) => {
    const finite = [...data.subarray(from, to)].filter(Number.isFinite)
    return {
      from,
      to,
      low: finite.reduce((a, b) => Math.min(a, b), Infinity),
      high: finite.reduce((a, b) => Math.max(a, b), -Infinity),
    }
  }
  const stretches = Array.from({ length: Math.ceil(data.length / 100) }, (_, i) =>
    span(i * 100, Math.min(data.length, (i + 1) * 100)),
  )
  return {
    ...span(0, data.length),
    stretches,
    lowMarks: data.filter((v) => v === -Infinity).length,
    highMarks: data.filter((v) => v === Infinity).length,
  }
}

const clippingOf = (
  data: Float32Array,
  more: { declared?: readonly [number, number]; inferred?: boolean } = {},
) =>
  findClipping(data, {
    range: rangeOf(data),
    declared: more.declared,
    step: smallestStep(data),
    inferred: more.inferred ?? true,
  })

describe('clipping', () => {
  test.each([1, 2, 3, 4, 5])('is not seen where nothing is cut: fine steps, seed %i', (seed) => {
    expect(clippingOf(pulses({ count: 200, step: 0.01, high: 99, seed })).limitsFrom).toBe('none')
  })

  test.each([1, 2, 3, 4, 5])('is not seen where nothing is cut: 8 bits over 40 kV, seed %i', (seed) => {
    expect(clippingOf(pulses({ count: 200, step: 40 / 256, high: 99, seed })).limitsFrom).toBe('none')
  })

  test.each([
    [9, 0.01],
    [10, 0.01],
    [9.9375, 40 / 256],
    [11, 0.01],
  ])('is seen where tops are cut at %d, step %d', (high, step) => {
    const data = pulses({ count: 200, step, high, seed: 7 })
    const cut = data.filter((v) => v >= Math.fround(high) - step / 2).length
    const found = clippingOf(data)
    expect(found.limitsFrom).toBe('flat tops')
    expect(found.limits).toEqual([-Infinity, Math.fround(high)])
    expect(found.clippedSamples).toBe(cut)
  })

  test('is seen at the low end of a signal drawn downward', () => {
    const found = clippingOf(pulses({ count: 200, step: 0.01, high: 9, seed: 7 }).map((v) => -v))
    expect(found.limits).toEqual([-9, Infinity])
  })

  test('is not seen at a level of rest', () => {
    expect(clippingOf(pulses({ count: 100, step: 0.01, high: 99, seed: 3, noise: 0 })).limitsFrom).toBe(
      'none',
    )
  })

  test('is not looked for where a signal is flat by nature', () => {
    expect(
      clippingOf(pulses({ count: 100, step: 0.01, high: 9, seed: 3 }), { inferred: false }).limits,
    ).toBeUndefined()
  })

  test('follows declared limits, reached or not', () => {
    const data = Float32Array.of(-5, 0, 1, 4.99, 5, 5, 2, 3)
    expect(findClipping(data, { range: rangeOf(data), declared: [-10, 5], step: 0, inferred: true })).toEqual(
      { limits: [-10, 5], limitsFrom: 'declared', clippedSamples: 2 },
    )
    expect(
      findClipping(data, { range: rangeOf(data), declared: [-10, 10], step: 0, inferred: true })
        .clippedSamples,
    ).toBe(0)
  })

  test('takes the side of a word for clipped samples from the highest sound sample', () => {
    const data = Float32Array.of(0, 1, 3, Infinity, Infinity, 2, 1)
    const found = findClipping(data, { range: rangeOf(data), declared: undefined, step: 0, inferred: true })
    expect(found).toEqual({ limits: [-Infinity, 3], limitsFrom: 'over-range words', clippedSamples: 3 })
    settleMarked(data, rangeOf(data), found.limits)
    expect([...data]).toEqual([0, 1, 3, 3, 3, 2, 1])
  })
})

describe('the smallest step', () => {
  const random = randoms(11)
  const spread = (count: number, scale: number) => Array.from({ length: count }, () => scale * noise(random))

  test.each([
    [0.01, 3],
    [40 / 4096, 3],
    [40 / 256, 3],
    [5 / 65536, 6],
    [0.001, 9],
  ])('of a recorder with steps of %d printed to %i decimals', (step, decimals) => {
    const data = Float32Array.from(spread(50_000, 2 ** 10 * step), (v) =>
      Number((Math.round(v / step) * step).toFixed(decimals)),
    )
    expect(smallestStep(data) / step).toBeCloseTo(1, 1)
  })

  test('is the last digit printed where that is coarser', () => {
    expect(smallestStep(Float32Array.from(spread(50_000, 1), (v) => Number(v.toFixed(2))))).toBeCloseTo(
      0.01,
      5,
    )
  })

  test('is none where values lie on no grid', () => {
    expect(smallestStep(Float32Array.from(spread(50_000, 1)))).toBe(0)
  })

  test.each([[[]], [[1, 1, 1]], [[0, 5, 0, 5]], [[1, 2, 3]]])('is none for %j', (values) => {
    expect(smallestStep(Float32Array.from(values))).toBe(0)
  })
})
