import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { placeKey } from '../../../src/test-log/place/read-words.ts'

// Ways workshops write places, in four languages: common practice, no source. Written down before the reader was looked at.
const rows = readFileSync(new URL('shorthand.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split('\t') as [meant: string, language: string, written: string])

describe('places as workshops write them', () => {
  test.each(rows)('%s (%s): %s', (meant, _, written) => {
    expect(placeKey(written)).toBe(placeKey(meant))
  })
  test.each([
    ['vacuum hose 1', 'vacuum hose 2'],
    ['vacuum hose', 'vacuum hose, rear'],
    ['vac hose front', 'vac hose rear'],
    ['injector 2', 'injector seal 2'],
    ['breather hose', 'PCV hose'],
    ['intake manifold gasket', 'intake manifold gasket bank 1'],
    ['intake gasket B1', 'intake gasket B2'],
    ['exhaust manifold gasket', 'intake manifold gasket'],
    ['fuel line', 'vacuum line'],
    ['brake booster hose', 'brake booster check valve'],
    ['PCV hose', 'PCV hose, rear'],
    ['throttle body', 'throttle body heater hose'],
    ['heater hose', 'heater vac hose'],
    ['oil filler cap', 'oil filter cap'],
    ['valve cover gasket', 'head gasket'],
    ['air duct', 'air filter box'],
    ['EGR valve', 'EGR pipe'],
    ['purge valve', 'purge hose'],
    ['upper intake manifold gasket', 'lower intake manifold gasket'],
    ['nipple 17', 'nipple 18'],
    ['joint', 'gasket'],
    ['IM', 'la'],
    ['coil 1', 'coil lead'],
    ['plug 4', 'plug lead 4'],
    ['Unterdruckschlauch links', 'Unterdruckschlauch rechts'],
    ['durite avant', 'durite arrière'],
  ])('%s and %s are two places', (a, b) => expect(placeKey(a)).not.toBe(placeKey(b)))

  test('and no two of the places meant are one', () => {
    const meant = [...new Set(rows.map(([place]) => place))]
    expect(new Set(meant.map(placeKey)).size).toBe(meant.length)
  })
})
