import { expect, test } from 'vitest'
import { blendAfr, stoichiometricAfr } from '../../../src/test-log/gas/afr.ts'

// Heywood 1988 eq. 3.6 and Table D.4 (from memory, recomputed; tolerance 0.005 computed, 0.03 table)
test.each([
  ['gasoline', 1.87, 0, 14.599, 14.6],
  ['iso-octane', 2.25, 0, 15.127, 15.13],
  ['n-heptane', 2.2857, 0, 15.175, 15.18],
  ['ethanol', 3, 0.5, 9.002, 9],
  ['methanol', 4, 1, 6.471, 6.47],
  ['methane', 4, 0, 17.234, 17.23],
  ['propane', 2.6667, 0, 15.674, 15.67],
  ['toluene', 1.1429, 0, 13.503, 13.5],
  ['diethyl ether', 2.5, 0.25, 11.19, 11.19],
  ['reference petrol of the exhaust regulation', 1.73, 0.02, 13.972, 13.97],
])('%s', (...[, hydrogen, oxygen, computed, table]) => {
  const afr = stoichiometricAfr({ hydrogen, oxygen })
  expect(Math.abs(afr - computed)).toBeLessThan(0.005)
  expect(Math.abs(afr - table)).toBeLessThan(0.03)
})

// shares by mass; the last three from 5, 10, 85 % by volume at 0.745 and 0.789 kg/l (Regulation 692/2008 Annex IX for petrol)
test.each([
  [0.1, 14.039],
  [0.85, 9.842],
  [0.0528, 14.304],
  [0.1053, 14.01],
  [0.8572, 9.801],
])('%d of ethanol by mass', (share, afr) => {
  expect(
    Math.abs(
      blendAfr([
        { share: 1 - share, afr: 14.599 },
        { share, afr: 9.002 },
      ]) - afr,
    ),
  ).toBeLessThan(0.005)
})
