import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { codeParts, meaningOf } from './trouble-codes.ts'

/**
 * Trouble codes with their generic meaning where the standard gives one. A code says what the control unit noticed, not
 * why; it says neither when nor whether it is still so.
 *
 * @source SAE J2012 / ISO 15031-6
 */
export function readCode(group: TestGroup): TestFinding {
  const base = recorded(group)
  const codes = base.readings.map((r) => r.reading)
  const read = codes.map((code) => sayCode(code, base.stage))
  return { ...base, says: read.map((r) => r.says), facts: read.map((r) => r.fact) }
}

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
      says: {
        key: defined === 'maker' ? 'tests.code.maker' : 'tests.code.not-listed',
        args: { code, system },
      },
      fact,
    }
  const { bank, cylinder, coil, key } = meaning
  const named = Object.fromEntries(
    Object.entries({ bank, cylinder, coil }).filter(([, v]) => v !== undefined),
  )
  return { says: { key: `tests.code.${key}`, args: { code, ...named } }, fact }
}
