import { expect, test } from 'vitest'
import { leastSquaresPolynomial } from '../../src/maths/least-squares-polynomial.ts'
import { referenceJson, relativeGap } from './reference-data.ts'

interface Linear {
  certified: { coefficients: string[]; standard_deviations: string[]; residual_sd: string }
  data: string[][]
}

// NIST Statistical Reference Datasets, linear least squares; tolerances of ill-conditioned sets as double allows.
const SETS: Record<string, { degree: number; intercept: boolean; relative: number }> = {
  Norris: { degree: 1, intercept: true, relative: 1e-9 },
  Pontius: { degree: 2, intercept: true, relative: 1e-8 },
  NoInt1: { degree: 1, intercept: false, relative: 1e-9 },
  NoInt2: { degree: 1, intercept: false, relative: 1e-9 },
  Wampler1: { degree: 5, intercept: true, relative: 1e-6 },
  Wampler2: { degree: 5, intercept: true, relative: 1e-6 },
  Wampler3: { degree: 5, intercept: true, relative: 1e-6 },
  Wampler4: { degree: 5, intercept: true, relative: 1e-5 },
  Wampler5: { degree: 5, intercept: true, relative: 1e-5 },
}

test('NIST StRD linear files: coefficients, their standard deviations, residual standard deviation', () => {
  const file = referenceJson<{ datasets: Record<string, Linear> }>('nist-strd-linear.json')
  if (!file) return
  for (const [name, { degree, intercept, relative }] of Object.entries(SETS)) {
    const { data, certified } = file.datasets[name]!
    const fit = leastSquaresPolynomial(
      data.map((r) => Number(r[1])),
      data.map((r) => Number(r[0])),
      { degree, intercept },
    )!
    certified.coefficients.forEach((c, k) => {
      expect(relativeGap(fit.coefficients[k]!, Number(c)), `${name} B${k}`).toBeLessThan(relative)
    })
    // Wampler 1 and 2 leave exactly nothing; what double leaves is bounded against the size of y.
    const exact = Number(certified.residual_sd) === 0
    const size = Math.max(...data.map((r) => Math.abs(Number(r[0]))))
    if (exact) expect(fit.residualSd! / size, name).toBeLessThan(1e-13)
    else {
      expect(relativeGap(fit.residualSd!, Number(certified.residual_sd)), name).toBeLessThan(1e-8)
      certified.standard_deviations.forEach((sd, k) => {
        expect(relativeGap(fit.standardDeviations[k]!, Number(sd)), `${name} sd B${k}`).toBeLessThan(1e-8)
      })
    }
  }
})

// NIST StRD Wampler1: y is exactly 1 + x + ... + x^5 at x = 0..20, certified coefficients all 1.
test('NIST StRD Wampler1, made by its formula', () => {
  const x = Array.from({ length: 21 }, (_, i) => i)
  const fit = leastSquaresPolynomial(
    x,
    x.map((v) => 1 + v + v ** 2 + v ** 3 + v ** 4 + v ** 5),
    { degree: 5 },
  )!
  for (const c of fit.coefficients) expect(Math.abs(c - 1)).toBeLessThan(1e-6)
})

test('points that do not fix the polynomial', () => {
  expect(leastSquaresPolynomial([1, 2], [1, 2], { degree: 2 })).toBeUndefined()
  expect(leastSquaresPolynomial([1, 1, 1], [1, 2, 3], { degree: 1 })).toBeUndefined()
})
