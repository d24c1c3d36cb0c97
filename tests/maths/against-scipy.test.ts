import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { binomialInterval } from '../../src/maths/binomial-interval.ts'
import { binomialCdf } from '../../src/maths/binomial.ts'
import { fisherExact } from '../../src/maths/fisher-exact.ts'
import { logGamma } from '../../src/maths/gamma.ts'
import { hodgesLehmannShift } from '../../src/maths/hodges-lehmann.ts'
import { incompleteBeta } from '../../src/maths/incomplete-beta.ts'
import { leastSquaresLine } from '../../src/maths/least-squares-line.ts'
import { lombScargle } from '../../src/maths/lomb-scargle.ts'
import { mad } from '../../src/maths/mad.ts'
import { mannWhitney } from '../../src/maths/mann-whitney.ts'
import { standardDeviation } from '../../src/maths/mean-sd.ts'
import { normalCdf, normalQuantile } from '../../src/maths/normal.ts'
import { quantile } from '../../src/maths/quantile.ts'
import { signedRankChances } from '../../src/maths/rank-distribution.ts'
import { robustLine } from '../../src/maths/robust-line.ts'
import { solveLinear } from '../../src/maths/solve-linear.ts'
import { studentTCdf, studentTQuantile } from '../../src/maths/student-t.ts'
import { referenceText, relativeGap } from './reference-data.ts'

type Row = readonly number[]
interface Values {
  source: string
  beta: Row[]
  gamma: Row[]
  normal: Row[]
  student: Row[]
  binomial: Row[]
  fisher: Row[]
  ranks: { a: number[]; b: number[]; u: number; greater: number }[]
  tied_ranks: { a: number[]; b: number[]; u: number; two: number }[]
  signed: Row[]
  line: { x: number[]; y: number[]; sen: Row; least: Row }[]
  spread: { values: number[]; p: number; quantile: number; mad: number; sd: number }[]
  waves: { t: number[]; y: number[]; hz: number[]; power: number[] }[]
  system: { a: number[]; b: number[]; x: number[] }[]
}

const SCRIPT = fileURLToPath(new URL('scipy-values.py', import.meta.url))
const asked = spawnSync('python3', [SCRIPT, '7', '400'], { encoding: 'utf8', maxBuffer: 1 << 26 })
const live = asked.status === 0 ? asked.stdout : undefined

describe.each([
  ['kept values of scipy 1.17.1', referenceText('scipy-values.json')],
  ['others, of the scipy of this machine', live],
])('%s', (_, text) => {
  const values = (text === undefined ? undefined : JSON.parse(text)) as Values
  const held = (name: string, run: () => void): void => test.skipIf(text === undefined)(name, run)

  held('gamma and beta', () => {
    for (const [x, log] of values.gamma as number[][])
      expect(Math.abs(logGamma(x!) - log!)).toBeLessThan(1e-12 * Math.max(1, Math.abs(log!)))
    for (const [x, a, b, share] of values.beta as number[][])
      expect(Math.abs(incompleteBeta(x!, a!, b!) - share!)).toBeLessThan(1e-12)
  })
  held('normal, far into the tail', () => {
    for (const [z, area, p, quantileOf] of values.normal as number[][]) {
      expect(relativeGap(normalCdf(z!), area!)).toBeLessThan(1e-11)
      expect(Math.abs(normalQuantile(p!) - quantileOf!)).toBeLessThan(1e-8)
    }
  })
  held('Student’s t', () => {
    for (const [t, freedom, area, p, quantileOf] of values.student as number[][]) {
      expect(Math.abs(studentTCdf(t!, freedom!) - area!)).toBeLessThan(1e-12)
      const ours = studentTQuantile(p!, Math.max(freedom!, 1))
      expect(Math.abs(ours - quantileOf!)).toBeLessThan(1e-8 * Math.max(1, Math.abs(quantileOf!)))
    }
  })
  held('binomial, the exact interval of a share, Fisher’s exact test', () => {
    for (const [k, n, p, area, low, high] of values.binomial as number[][]) {
      expect(Math.abs(binomialCdf(k!, n!, p!) - area!)).toBeLessThan(1e-11)
      const ours = binomialInterval({ hits: k!, total: n! })
      expect(Math.abs(ours.low - low!)).toBeLessThan(1e-8)
      expect(Math.abs(ours.high - high!)).toBeLessThan(1e-8)
    }
    for (const [a, n, b, m, p] of values.fisher as number[][])
      expect(Math.abs(fisherExact({ hits: a!, total: n! }, { hits: b!, total: m! }) - p!)).toBeLessThan(1e-9)
  })
  held('Mann and Whitney, exact and with ties; the signed ranks', () => {
    for (const { a, b, u, greater } of values.ranks) {
      const ours = mannWhitney(a, b)!
      expect(ours.u).toBe(u)
      expect(ours.pGreater).toBeCloseTo(greater, 9)
    }
    for (const { a, b, u, two } of values.tied_ranks) {
      const ours = mannWhitney(a, b, { method: 'normal' })!
      expect(ours.u).toBe(u)
      expect(ours.pTwoSided).toBeCloseTo(two, 9)
    }
    for (const [n, w, below] of values.signed as number[][]) {
      const ours = signedRankChances(n!)
        .slice(0, w! + 1)
        .reduce((sum, c) => sum + c, 0)
      expect(Math.abs(ours - below!)).toBeLessThan(1e-9)
    }
  })
  held('lines: Theil and Sen with its ends, least squares with its deviations', () => {
    for (const { x, y, sen, least } of values.line) {
      const robust = robustLine(x, y)!
      const ours = [robust.slope, robust.intercept, robust.slopeLow, robust.slopeHigh]
      ours.forEach((v, i) => expect(v).toBeCloseTo(sen[i]!, 8))
      const line = leastSquaresLine(x, y)!
      const theirs = [line.slope, line.intercept, line.slopeSd!, line.interceptSd!]
      theirs.forEach((v, i) => expect(v).toBeCloseTo(least[i]!, 8))
    }
  })
  held('quantile, median absolute deviation, standard deviation', () => {
    for (const { values: v, p, quantile: at, mad: off, sd } of values.spread) {
      expect(quantile(v, p)!).toBeCloseTo(at, 9)
      expect(mad(v)!).toBeCloseTo(off, 9)
      expect(standardDeviation(v)!).toBeCloseTo(sd, 9)
    }
  })
  held('periodogram of uneven times; a square system', () => {
    for (const { t, y, hz, power } of values.waves)
      lombScargle({ timesS: t, values: y }, hz).power.forEach((p, i) =>
        expect(relativeGap(p, power[i]!)).toBeLessThan(1e-6),
      )
    for (const { a, b, x } of values.system)
      solveLinear(Float64Array.from(a), Float64Array.from(b))!.forEach((v, i) =>
        expect(Math.abs(v - x[i]!)).toBeLessThan(1e-6 * Math.max(1, Math.abs(x[i]!))),
      )
  })
  held('the shift of Hodges and Lehmann is the middle of all differences', () => {
    for (const { a, b } of values.ranks) {
      const differences = b.flatMap((y) => a.map((x) => y - x))
      expect(hodgesLehmannShift(a, b).shift).toBeCloseTo(quantile(differences, 0.5)!, 9)
    }
  })
})
if (live === undefined) console.log('skipped: no python3 with scipy here')
