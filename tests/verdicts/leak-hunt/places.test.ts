import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { seatOf } from '../../../src/verdicts/leak-hunt/intake-path.ts'

// What kind of place each one of tests/test-log/place/shorthand.tsv is, and of which bank and cylinder: common practice,
// no source. "nowhere": no seat of the intake path.
const SEATS: Readonly<Record<string, string>> = {
  'throttle body': 'throttle',
  'throttle body gasket': 'throttle',
  'intake manifold': 'manifold',
  'intake manifold gasket': 'manifold',
  'intake manifold bank 1': 'manifold, bank 1',
  'intake manifold gasket bank 2': 'manifold, bank 2',
  'runner joint cylinder 2': 'runner, bank 2, cylinder 2',
  'injector 2': 'port, bank 2, cylinder 2',
  'injector seal cylinder 3': 'port, bank 1, cylinder 3',
  'vacuum hose': 'hose, vacuum',
  'brake booster hose': 'hose, brake servo',
  'brake booster': 'hose, brake servo',
  'PCV valve': 'hose, breather',
  'PCV hose': 'hose, breather',
  'breather hose': 'hose, breather',
  'EGR valve': 'hose, exhaust recirculation',
  'EGR gasket': 'hose, exhaust recirculation',
  'purge valve': 'hose, purge',
  'purge hose': 'hose, purge',
  'idle air control valve': 'nowhere',
  'air duct': 'duct',
  'air meter': 'meter',
  'air filter box': 'duct',
  plenum: 'plenum',
  'plenum gasket': 'plenum',
  'fuel pressure regulator hose': 'hose, vacuum',
  'MAP sensor hose': 'hose, vacuum',
  dipstick: 'nowhere',
  'oil filler cap': 'nowhere',
  'valve cover gasket': 'nowhere',
  'spark plug 4': 'nowhere',
  'coil 3': 'nowhere',
  'plug lead 1': 'nowhere',
  'exhaust manifold': 'nowhere',
  'oxygen sensor bank 1': 'nowhere',
  'heater control hose': 'hose, vacuum',
  'manifold port': 'hose, vacuum',
}

const { table } = causesInForce(loadCauses())
const engine = { cylinders: [1, 2, 3, 4, 5, 6], banks: { 1: [1, 3, 5], 2: [2, 4, 6] } }
const rows = readFileSync(new URL('../../test-log/place/shorthand.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split('\t') as [meant: string, language: string, written: string])

const said = (place: string): string => {
  const seat = seatOf(place, { table, engine })
  if (!seat) return 'nowhere'
  const { station, hose, bank, cylinder } = seat
  return [station, hose, bank && `bank ${bank}`, cylinder && `cylinder ${cylinder}`]
    .filter(Boolean)
    .join(', ')
}

describe('what kind of place it is, however it is written', () => {
  test.each(rows)('%s (%s): %s', (meant, _, written) => expect(said(written)).toBe(SEATS[meant]))
  test.each(Object.entries(SEATS))('%s itself: %s', (place, seat) => expect(said(place)).toBe(seat))
})
