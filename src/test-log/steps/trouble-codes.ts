import type { TextKey } from '../../texts/messages.ts'
import type { CodeSubject } from '../fact.ts'

/** A trouble code taken apart. */
export interface CodeParts {
  system: 'powertrain' | 'chassis' | 'body' | 'network'
  /** Whose meaning it has: the standard's, the vehicle maker's (never given a meaning here), or none yet. */
  defined: 'standard' | 'maker' | 'reserved'
}

const SYSTEMS = { P: 'powertrain', C: 'chassis', B: 'body', U: 'network' } as const

/**
 * Who defines a code, by its first digits.
 * @source SAE J2012 / ISO 15031-6: P0, P2, P34-P3F, B0, C0, U0, U3 standard; B3, C3 reserved; the others the maker's
 */
export function codeParts(code: string): CodeParts {
  const letter = code[0] as keyof typeof SYSTEMS
  return { system: SYSTEMS[letter], defined: definedBy(letter, code) }
}

function definedBy(letter: string, code: string): CodeParts['defined'] {
  const digit = code[1]!
  if (letter === 'P' && digit === '3') return code[2]! >= '4' ? 'standard' : 'maker'
  const standard = { P: '02', C: '0', B: '0', U: '03' }[letter]!
  if (standard.includes(digit)) return 'standard'
  return (letter === 'B' || letter === 'C') && digit === '3' ? 'reserved' : 'maker'
}

/** Text of a code from its two bytes. @source SAE J2012 / ISO 15031-6: bits 15-14 letter, 13-12 first digit */
export function codeFromBytes(raw: number): string {
  const letter = 'PCBU'[(raw >> 14) & 3]!
  return letter + ((raw >> 12) & 3).toString() + (raw & 0xfff).toString(16).toUpperCase().padStart(3, '0')
}

/** What a code is about. `key` is that of its sentence. */
export interface CodeMeaning {
  about: CodeSubject
  key: TextKey
  bank?: number
  cylinder?: number
  coil?: string
}

/**
 * Codes of the standard that bear on mixture and ignition; a modest table, others are shown without a meaning.
 * @source SAE J2012 / ISO 15031-6 in our words; P0171, P0300, P0301 seen in public lists, the others from memory
 */
const TABLE: Readonly<Record<string, CodeMeaning>> = {
  P0100: { about: 'air meter', key: 'tests.code.air-meter' },
  P0101: { about: 'air meter', key: 'tests.code.air-meter' },
  P0102: { about: 'air meter', key: 'tests.code.air-meter' },
  P0103: { about: 'air meter', key: 'tests.code.air-meter' },
  P0105: { about: 'manifold pressure', key: 'tests.code.manifold-pressure' },
  P0106: { about: 'manifold pressure', key: 'tests.code.manifold-pressure' },
  P0107: { about: 'manifold pressure', key: 'tests.code.manifold-pressure' },
  P0108: { about: 'manifold pressure', key: 'tests.code.manifold-pressure' },
  P0115: { about: 'coolant sensor', key: 'tests.code.coolant-sensor' },
  P0116: { about: 'coolant sensor', key: 'tests.code.coolant-sensor' },
  P0117: { about: 'coolant sensor', key: 'tests.code.coolant-sensor' },
  P0118: { about: 'coolant sensor', key: 'tests.code.coolant-sensor' },
  P0119: { about: 'coolant sensor', key: 'tests.code.coolant-sensor' },
  P0130: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 1 },
  P0131: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 1 },
  P0132: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 1 },
  P0133: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 1 },
  P0150: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 2 },
  P0151: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 2 },
  P0152: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 2 },
  P0153: { about: 'oxygen sensor', key: 'tests.code.oxygen-sensor', bank: 2 },
  P0008: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0009: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0016: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0017: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0018: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0019: { about: 'valve timing', key: 'tests.code.valve-timing' },
  P0087: { about: 'fuel pressure', key: 'tests.code.fuel-pressure-low' },
  P0088: { about: 'fuel pressure', key: 'tests.code.fuel-pressure-high' },
  P0171: { about: 'lean', key: 'tests.code.lean', bank: 1 },
  P0174: { about: 'lean', key: 'tests.code.lean', bank: 2 },
  P0172: { about: 'rich', key: 'tests.code.rich', bank: 1 },
  P0175: { about: 'rich', key: 'tests.code.rich', bank: 2 },
  P2187: { about: 'lean', key: 'tests.code.lean-idle', bank: 1 },
  P2189: { about: 'lean', key: 'tests.code.lean-idle', bank: 2 },
  P2188: { about: 'rich', key: 'tests.code.rich-idle', bank: 1 },
  P2190: { about: 'rich', key: 'tests.code.rich-idle', bank: 2 },
  P0300: { about: 'misfire', key: 'tests.code.misfire-several' },
  P0400: { about: 'exhaust recirculation', key: 'tests.code.exhaust-recirculation' },
  P0401: { about: 'exhaust recirculation', key: 'tests.code.exhaust-recirculation' },
  P0402: { about: 'exhaust recirculation', key: 'tests.code.exhaust-recirculation' },
  P0420: { about: 'catalyst', key: 'tests.code.catalyst', bank: 1 },
  P0430: { about: 'catalyst', key: 'tests.code.catalyst', bank: 2 },
  P0440: { about: 'purge', key: 'tests.code.purge' },
  P0441: { about: 'purge', key: 'tests.code.purge' },
  P0505: { about: 'idle control', key: 'tests.code.idle-control' },
  P0506: { about: 'idle control', key: 'tests.code.idle-control' },
  P0507: { about: 'idle control', key: 'tests.code.idle-control' },
}
/** Families that count from 1 to 12 in their last two decimal digits. Coils are lettered by the standard, not by cylinder. */
const FAMILIES = [
  { prefix: 'P03', offset: 0, about: 'misfire', key: 'tests.code.misfire-cylinder', counts: 'cylinder' },
  { prefix: 'P02', offset: 0, about: 'injector', key: 'tests.code.injector', counts: 'cylinder' },
  { prefix: 'P03', offset: 50, about: 'ignition', key: 'tests.code.coil', counts: 'coil' },
] as const
const MOST = 12

/** Meaning of a standard code of the table; undefined for all others, and always for a maker's own. */
export function meaningOf(code: string): CodeMeaning | undefined {
  if (codeParts(code).defined !== 'standard') return undefined
  return TABLE[code] ?? countedMeaning(code)
}

function countedMeaning(code: string): CodeMeaning | undefined {
  const digits = code.slice(3)
  if (!/^\d\d$/.test(digits)) return undefined
  for (const { prefix, offset, about, key, counts } of FAMILIES) {
    const count = Number(digits) - offset
    if (!code.startsWith(prefix) || count < 1 || count > MOST) continue
    return counts === 'cylinder'
      ? { about, key, cylinder: count }
      : { about, key, coil: 'ABCDEFGHIJKL'[count - 1]! }
  }
  return undefined
}
