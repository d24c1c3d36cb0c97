import { sentence, sentenceOf } from '../../texts/messages.ts'
import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { wordsOf } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { codeParts, meaningOf } from './trouble-codes.ts'

/**
 * Trouble codes with their generic meaning where the standard gives one. A code says what the control unit noticed, not
 * why; it says neither when nor whether it is still so.
 *
 * @source SAE J2012 / ISO 15031-6
 */
function readCode(group: TestGroup): TestFinding {
  const base = recorded(group)
  const codes = base.readings.map((r) => r.reading).filter((code) => code !== NONE)
  if (codes.length === 0 && base.readings.length > 0)
    return {
      ...base,
      finding: 'in limits',
      says: [sentence('tests.code.none')],
      facts: [{ kind: 'codes-none', stage: base.stage, sure: true }],
    }
  const read = codes.map((code) => sayCode(code, base.stage))
  return { ...base, says: read.map((r) => r.says), facts: read.map((r) => r.fact) }
}

const SYSTEMS = {
  powertrain: 'word.code-system.powertrain',
  chassis: 'word.code-system.chassis',
  body: 'word.code-system.body',
  network: 'word.code-system.network',
} as const

function sayCode(code: string, stage: 'before' | 'after'): { says: Says; fact: Fact } {
  const meaning = meaningOf(code)
  const { defined, system } = codeParts(code)
  const about = meaning?.about ?? (defined === 'maker' ? 'maker' : 'other')
  const fact: Fact = {
    kind: 'code',
    code,
    about,
    bank: meaning?.bank,
    cylinder: meaning?.cylinder,
    stage,
    sure: true,
  }
  if (!meaning)
    return {
      says: sentence(defined === 'maker' ? 'tests.code.maker' : 'tests.code.not-listed', {
        code,
        system: sentence(SYSTEMS[system]),
      }),
      fact,
    }
  const { bank, cylinder, coil, key } = meaning
  const named = Object.fromEntries(
    Object.entries({ bank, cylinder, coil }).filter(([, v]) => v !== undefined),
  )
  return { says: sentenceOf(key, { code, ...named }), fact }
}

/** Letter, first digit 0-3, three hexadecimal digits. @source SAE J2012 / ISO 15031-6 */
export const TROUBLE_CODE = /^[PCBU][0-3][0-9A-F]{3}$/

/** Kept for "none stored": no code was found when codes were read. */
const NONE = 'none'
/** Words for it; common practice, no source. */
const NONE_WORDS: ReadonlySet<string> = new Set([
  'none',
  'none stored',
  'no codes',
  'no code',
  'no dtc',
  'no dtcs',
  'no faults',
  'no codes stored',
  'clear',
  'keine',
  'keine codes',
  'kein fehler',
  'keine fehler',
  'aucun',
  'aucun code',
  'aucun defaut',
  'ninguno',
  'sin codigos',
  'sin fallos',
])

/** `p302`, `P 0302` and `PO302` are P0302: readers leave out a zero, a blank, or capitals, and hands write an O for a nought. */
const codeSpelt = (written: string): string =>
  written
    .toUpperCase()
    .replace(/[\s-]/g, '')
    .replace(
      /^([PCBU])([0-9A-FO]{3,4})$/,
      (_, system: string, rest: string) => system + rest.replaceAll('O', '0'),
    )
    .replace(/^([PCBU])([0-9A-F]{3})$/, '$10$2')

export const code: StepKind = {
  title: 'report.step.code',
  needs: { reading: true },
  readings: {
    words: [NONE],
    accepts: (reading) => reading === NONE || TROUBLE_CODE.test(reading),
    units: () => [],
    kept: (written) => (NONE_WORDS.has(wordsOf(written).join(' ')) ? NONE : codeSpelt(written)),
    expected: 'phrase.trouble-code',
  },
  evidence: [
    'code-lean',
    'code-lean-bank',
    'code-rich',
    'code-rich-bank',
    'code-misfire-cylinder',
    'code-misfire-several',
    'code-air-meter',
    'code-oxygen-sensor',
    'code-coolant-sensor',
    'code-injector',
    'code-ignition',
    'code-coil',
    'code-egr',
    'code-purge',
    'code-fuel-pressure-low',
    'code-fuel-pressure-high',
    'code-idle-control',
    'code-valve-timing',
    'code-catalyst',
    'repair-codes-clear',
  ],
  cautions: [],
  read: readCode,
}
