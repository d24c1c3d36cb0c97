import type { Step } from '../job/log-steps.ts'
import { STEP_KINDS } from './steps/index.ts'

/** Usual spellings of what the log has one spelling for: capitals, and units as gauges and tools print them. */

const UNITS: Readonly<Record<string, string>> = {
  'in hg': 'inHg',
  '"hg': 'inHg',
  'in.hg': 'inHg',
  inhg: 'inHg',
  in: 'inHg',
  '"': 'inHg',
  inches: 'inHg',
  hg: 'inHg',
  'vol%': '%vol',
  '% vol': '%vol',
  'vol.%': '%vol',
  'vol-%': '%vol',
  percent: '%',
  pct: '%',
  prozent: '%',
  bars: 'bar',
  'g/sec': 'g/s',
  gps: 'g/s',
  gs: 'g/s',
  'g s': 'g/s',
  'u/min': 'rpm',
  '1/min': 'rpm',
  kohms: 'kohm',
  'k\u03c9': 'kohm',
  '\u03c9': 'ohm',
  ohms: 'ohm',
  degrees: 'deg',
  '\u00b0': 'deg',
  c: '°C',
  degc: '°C',
  'deg c': '°C',
  celsius: '°C',
  f: '°F',
  degf: '°F',
  'deg f': '°F',
  fahrenheit: '°F',
}

/** The unit as the log has it, by capitals and usual names; as written where it is none of those. `%` is percent by volume where only that is known. */
export function unitSpelt(written: string, units: readonly string[]): string {
  if (units.includes(written)) return written
  const small = written.trim().toLowerCase()
  const same = units.filter((unit) => unit.toLowerCase() === small)
  if (same.length === 1) return same[0]!
  const usual = UNITS[small]
  if (usual !== undefined && units.includes(usual)) return usual
  if (small === '%' && units.includes('%vol')) return '%vol'
  return written
}

/** The reading as its step has it, whatever its capitals; undefined where it is none of the step's. */
export function readingSpelt(step: Step, written: string): string | undefined {
  const kind = STEP_KINDS[step].readings
  if (kind === undefined) return undefined
  const word = kind.kept?.(written) ?? written
  if (kind.accepts(word)) return word
  const plain = (text: string) =>
    text
      .toLowerCase()
      .replace(/[\s_-]+/g, ' ')
      .trim()
  const cylinder = /^(?:cyl(?:inder|\.)?|zyl(?:inder|\.)?|#|no\.?)?\s*(\d{1,2})$/i.exec(written.trim())?.[1]
  if (cylinder !== undefined && kind.accepts(`cylinder ${Number(cylinder)}`))
    return `cylinder ${Number(cylinder)}`
  return kind.words.find((known) => plain(known) === plain(written))
}

/** Free words without the blanks around them. */
export const cellSpelt = (text: string): string => text.trim().replace(/\s+/g, ' ')
