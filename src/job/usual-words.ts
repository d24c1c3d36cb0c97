import type { Engine } from './schema.ts'

/** A word of the trade for one of a closed list, as a pattern; `near` where it says less than what it is taken for. */
interface UsualWord<T extends string> {
  pattern: string
  means: T
  near?: true
}

/** Fuels by their usual names. Pump petrol is E10 in most countries (common practice, no source): taken, and told. */
export const FUEL_WORDS: readonly UsualWord<Engine['fuel']>[] = [
  { pattern: 'e0|e-0', means: 'E0' },
  { pattern: '(?:super\\s*)?e[- ]?5', means: 'E5' },
  { pattern: '(?:super\\s*)?e[- ]?10', means: 'E10' },
  { pattern: 'e[- ]?85|flex(?:\\s*fuel)?|superethanol', means: 'E85' },
  { pattern: 'lpg|autogas|gpl|glp|propane|fl(?:\u00fc|ue)ssiggas', means: 'LPG' },
  { pattern: 'cng|natural\\s*gas|erdgas|gnv|gnc', means: 'CNG' },
  {
    pattern: 'petrol|gasoline|gasolina|benzin|essence|unleaded|super|nafta|regular',
    means: 'E10',
    near: true,
  },
]

export const IGNITION_WORDS: readonly UsualWord<Engine['ignition']>[] = [
  {
    pattern:
      'coil[ -]per[ -](?:cylinder|plug)|coil[ -]on[ -]plug|plug[ -]?top(?: coils?)?|pencil coils?|cop|einzel(?:funken)?spulen?|bobines? crayons?|bobinas? individual(?:es)?',
    means: 'coil-per-cylinder',
  },
  {
    pattern:
      'waste(?:d)?[ -]spark|dis|double[ -]ended(?: coils?)?|pair coils?|doppelfunken(?:spulen?)?|\u00e9tincelle perdue|chispa perdida',
    means: 'wasted-spark',
  },
  { pattern: 'distributor|dizzy|verteiler|distributeur|allumeur|distribuidor|delco', means: 'distributor' },
]

/** What a word of the trade means; undefined where it is none. */
export function meantBy<T extends string>(
  words: readonly UsualWord<T>[],
  written: string,
): UsualWord<T> | undefined {
  return words.find(({ pattern }) => new RegExp(`^(?:${pattern})$`, 'i').test(written.trim()))
}
