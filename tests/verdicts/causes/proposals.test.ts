import { describe, expect, test } from 'vitest'
import type { Step } from '../../../src/job/log-steps.ts'
import type { NextTestId } from '../../../src/limits/keys.ts'
import { STEP_KINDS } from '../../../src/test-log/steps/index.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { TEST_WORDS } from '../../../src/verdicts/causes/test-words.ts'
import { candidateKey } from '../../../src/verdicts/causes/candidates.ts'
import { testsDone } from '../../../src/verdicts/causes/tests-done.ts'
import { table, testsOf, v6, weighCase, type Row, type WorkedCase } from './case.ts'

/**
 * Every step that can be proposed, and how each of its outcomes is logged: in words where the log takes words, in figures
 * where it takes figures. `{}` stands for the very words the proposal uses. Common practice, no source.
 */
interface Logged {
  /** A cylinder or place that is tested. */
  row: Readonly<Record<string, string>>
  outcomes: Readonly<Record<string, readonly Readonly<Record<string, string>>[] | 'in words'>>
}

const reads = (reading: string, value: number, unit: string, more: Record<string, string> = {}) => ({
  reading,
  value: String(value),
  unit,
  ...more,
})
const trims = (idle: number, raised: number) => [
  { ...reads('STFT1', idle, '%'), condition: 'idle', at: 'a' },
  { ...reads('LTFT1', 0, '%'), condition: 'idle', at: 'a' },
  { ...reads('STFT1', raised, '%'), condition: '2500 rpm', at: 'b' },
  { ...reads('LTFT1', 0, '%'), condition: '2500 rpm', at: 'b' },
]
const gas = (CO: number, CO2: number, HC: number, O2: number) => [
  { ...reads('CO', CO, '%vol'), condition: 'idle', at: 'g' },
  { ...reads('CO2', CO2, '%vol'), condition: 'idle', at: 'g' },
  { ...reads('HC', HC, 'ppm'), condition: 'idle', at: 'g' },
  { ...reads('O2', O2, '%vol'), condition: 'idle', at: 'g' },
]
const limited = { expected_low: '330', expected_high: '370' }
const compression = (third: number) =>
  [1, 2, 3, 4, 5, 6].map((c) => ({ ...reads(`cylinder ${c}`, c === 3 ? third : 12, 'bar'), at: 'c' }))

const LOGGED: Readonly<Record<NextTestId, Logged>> = {
  'trims-two-speeds': {
    row: { step: 'trim' },
    outcomes: { falls: trims(28, 5), rises: trims(3, 24), rich: trims(-22, -22), 'in-order': trims(1, 1) },
  },
  'spray-round': {
    row: { step: 'spray', reading: 'propane' },
    outcomes: {
      found: [{ place: 'air duct', outcome: 'response' }],
      nothing: ['air duct', 'throttle body gasket', 'vacuum hose'].map((place) => ({
        place,
        outcome: 'no response',
      })),
    },
  },
  'spray-place': {
    row: { step: 'spray', reading: 'propane', place: 'throttle body gasket' },
    outcomes: { response: 'in words', silent: [{ outcome: 'no response' }] },
  },
  'cap-place': {
    row: { step: 'cap', place: 'vacuum hose' },
    outcomes: { changed: 'in words', unchanged: 'in words' },
  },
  smoke: {
    row: { step: 'smoke', place: 'throttle body gasket' },
    outcomes: { found: 'in words', nothing: 'in words' },
  },
  compression: {
    row: { step: 'compression' },
    outcomes: { found: compression(6), nothing: compression(12) },
  },
  'fuel-pressure': {
    row: { step: 'fuel-pressure' },
    outcomes: {
      low: [reads('idle', 200, 'kPa', limited)],
      high: [reads('idle', 480, 'kPa', limited)],
      falls: [reads('key-on', 350, 'kPa', { ...limited, at: 'f' }), reads('hold', 120, 'kPa', { at: 'f' })],
      'in-order': [reads('idle', 350, 'kPa', limited)],
    },
  },
  vacuum: {
    row: { step: 'vacuum', condition: 'idle', expected_low: '17', expected_high: '22' },
    outcomes: { low: [reads('manifold', 11, 'inHg')], 'in-order': [reads('manifold', 19, 'inHg')] },
  },
  gas: {
    row: { step: 'gas' },
    outcomes: {
      lean: gas(0.1, 12.5, 60, 3.2),
      rich: gas(4.5, 12, 250, 0.2),
      'in-order': gas(0.4, 14.8, 60, 0.5),
    },
  },
  'secondary-resistance': {
    row: { step: 'secondary-resistance', reading: 'cylinder 3' },
    outcomes: { high: 'in words', 'in-order': 'in words' },
  },
  'read-plugs': {
    row: { step: 'plugs', reading: 'cylinder 3' },
    outcomes: { worn: 'in words', fouled: 'in words', 'in-order': 'in words' },
  },
  'swap-injector': {
    row: { step: 'swap', reading: 'injector', place: 'injector 3 to 1' },
    outcomes: { moves: 'in words', stays: 'in words' },
  },
  'injector-flow': {
    row: { step: 'injector-balance', reading: 'cylinder 3' },
    outcomes: { less: 'in words', more: 'in words', even: 'in words' },
  },
  'rotor-and-cap': { row: { step: 'cap-and-rotor' }, outcomes: { worn: 'in words', 'in-order': 'in words' } },
  'fuel-sample': { row: { step: 'fuel-sample' }, outcomes: { wrong: 'in words', 'in-order': 'in words' } },
  'block-recirculation': {
    row: { step: 'cap', place: 'EGR valve' },
    outcomes: { changed: 'in words', unchanged: 'in words' },
  },
  'oxygen-sensor': {
    row: { step: 'oxygen-sensor', reading: 'bank 1' },
    outcomes: { misleads: 'in words', follows: 'in words' },
  },
  'coolant-sensor': {
    row: { step: 'coolant-sensor' },
    outcomes: { cold: 'in words', hot: 'in words', 'in-order': 'in words' },
  },
  'exhaust-joints': {
    row: { step: 'exhaust-joints', place: 'exhaust manifold bank 1' },
    outcomes: { leaks: 'in words', tight: 'in words' },
  },
  'air-meter': {
    row: { step: 'air-meter', reading: 'idle' },
    outcomes: { low: 'in words', 'in-order': 'in words' },
  },
  'timing-marks': {
    row: { step: 'timing', reading: 'valve' },
    outcomes: { out: 'in words', 'in-order': 'in words' },
  },
  'swap-coil': {
    row: { step: 'swap', reading: 'coil', place: 'coil 3 to 1' },
    outcomes: { moves: 'in words', stays: 'in words' },
  },
  'idle-valve': {
    row: { step: 'command', reading: 'idle-valve' },
    outcomes: { stuck: 'in words', moves: 'in words' },
  },
  'purge-shut': {
    row: { step: 'command', reading: 'purge' },
    outcomes: { passes: 'in words', shuts: 'in words' },
  },
  'back-pressure': {
    row: { step: 'back-pressure', reading: 'raised' },
    outcomes: {
      high: [reads('raised', 25, 'kPa', { expected_low: '0', expected_high: '9' })],
      'in-order': [reads('raised', 4, 'kPa', { expected_low: '0', expected_high: '9' })],
    },
  },
}

const base: WorkedCase = { name: '', engine: v6, burn: undefined, log: [], first: '', never: [] }
const proposals = Object.entries(TEST_WORDS) as [NextTestId, (typeof TEST_WORDS)[NextTestId]][]
const english = loadTexts('en').templates
const rowsOf = (
  id: NextTestId,
  outcome: string,
  words = english[TEST_WORDS[id].outcomes[outcome]!]!,
): Row[] => {
  const { row, outcomes } = LOGGED[id]
  const logged = outcomes[outcome]!
  return (logged === 'in words' ? [{ outcome: words }] : logged).map((cells) => ({
    cells: { ...row, ...cells },
  }))
}
const weights = (rows: readonly Row[]) => {
  const { ledger } = weighCase(base, { log: rows })
  return new Map(ledger.candidates.map((c, i) => [candidateKey(c), ledger.posterior[i]!] as const))
}
const nothing = weights([])

describe.each(proposals)('%s', (id, { outcomes }) => {
  const proposed = table.tests[id]!
  const step = proposed.step as Step

  test('all its outcomes are logged here, as the step it names', () => {
    expect(Object.keys(LOGGED[id].outcomes).sort()).toEqual(
      (proposed.outcomes ?? [{ id: 'found' }, { id: 'nothing' }]).map((o) => o.id).sort(),
    )
    expect(LOGGED[id].row['step']).toBe(step)
  })

  test.each(Object.keys(outcomes))(
    '%s: once logged it moves the weights, and is not proposed again',
    (outcome) => {
      const rows = rowsOf(id, outcome)
      const moved = weights(rows)
      const most = Math.max(...[...nothing].map(([key, share]) => Math.abs((moved.get(key) ?? 0) - share)))
      expect(most).toBeGreaterThan(1e-4)
      const { context, ledger } = weighCase(base, { log: rows })
      const done = testsDone(testsOf(rows), context)
      if (id === 'spray-round' && outcome === 'found') return
      const targets =
        proposed.at === 'engine' ? [undefined] : ledger.candidates.filter((c) => isOf(c.id, proposed.of))
      expect(targets.some((target) => done(id, proposed, target))).toBe(true)
    },
  )

  test('its outcomes do not all say the same', () => {
    const seen = Object.keys(outcomes).map((outcome) =>
      JSON.stringify([...weights(rowsOf(id, outcome))].map(([key, share]) => [key, share.toFixed(6)])),
    )
    expect(new Set(seen).size).toBe(seen.length)
  })

  const inWords = Object.keys(outcomes).filter((o) => LOGGED[id].outcomes[o] === 'in words')
  const all = inWords.flatMap((o) => LANGUAGES.map((language) => [o, language] as const))
  if (all.length > 0)
    test.each(all)(
      '%s in the words the proposal uses (%s) is read, and as in English',
      (outcome, language) => {
        const words = loadTexts(language).templates[outcomes[outcome]!]!
        expect([words, STEP_KINDS[step].outcome!.reads(words)]).toEqual([words, true])
        expect(weights(rowsOf(id, outcome, words))).toEqual(weights(rowsOf(id, outcome)))
      },
    )
})

const isOf = (id: string, of: readonly string[]): boolean =>
  of.length === 0 || of.includes(id) || table.causes[id]!.families.some((f) => of.includes(f))
