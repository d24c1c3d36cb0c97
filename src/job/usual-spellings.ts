import { sampleRateOf } from '../units/sample-rate.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { daysOfJob } from './job-days.ts'
import { isDay } from './iso-time.ts'
import { daysMeant, momentsMeant } from './local-time.ts'
import { captureSchema, channelSchema, reviewSchema } from './schema.ts'
import { valueAt } from './schema-problems.ts'
import { FUEL_WORDS, IGNITION_WORDS, meantBy } from './usual-words.ts'
import type { KeyPath, YamlFile } from './yaml-document.ts'

type Spelt = (written: string) => unknown

/** One of a closed list, whatever its capitals. */
const oneOf =
  (words: readonly string[]): Spelt =>
  (written) => {
    const same = words.filter((word) => word.toLowerCase() === written.trim().toLowerCase())
    return same.length === 1 ? same[0] : undefined
  }
const day: Spelt = (written) => only(daysMeant(written.trim()))
const moment: Spelt = (written) => only(momentsMeant(written))
const only = (meant: readonly string[]): string | undefined => (meant.length === 1 ? meant[0] : undefined)
/** `1-3-4-2`; also `1342`, where each of its digits is a cylinder once. */
const list: Spelt = (written) => {
  const plain = written.trim()
  if (/^\d{1,2}(?:\s*[-,]\s*\d{1,2})+$/.test(plain)) return plain.split(/[-,]/).map(Number)
  const digits = [...plain].map(Number)
  const whole = digits.length > 1 && digits.toSorted((a, b) => a - b).every((n, i) => n === i + 1)
  return whole ? digits : undefined
}
const leading =
  (after: RegExp): Spelt =>
  (written) => {
    const found = /^(\d+(?:[.,]\d+)?)\s*(.*)$/.exec(written.trim())
    return found && after.test(found[2]!) ? Number(found[1]!.replace(',', '.')) : undefined
  }
const odometer = (written: string): { value: number; unit: 'mi' | 'km' } | undefined => {
  const found =
    /^(\d{1,3}(?:[ .,']\d{3})+|\d+)\s*(k)?\s*(mi|mile|miles|meilen|millas|km|kms|kilomet\w+)$/i.exec(
      written.trim(),
    )
  if (!found) return undefined
  const value = Number(found[1]!.replace(/[ .,']/g, '')) * (found[2] === undefined ? 1 : 1000)
  return { value, unit: /^k/i.test(found[3]!) ? 'km' : 'mi' }
}

/** `4 cyl`, `four`. */
const COUNTS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']
const cylinders: Spelt = (written) => {
  const word = COUNTS.indexOf(written.trim().toLowerCase().split(/[\s-]/)[0]!)
  return word >= 0 ? word + 1 : leading(/^(?:-?\s*(?:cyl|zyl|cil)\w*\.?)$/i)(written)
}
/** What a technician calls the channel by. */
const CARRIED: Readonly<Record<string, string>> = {
  cam: 'sync',
  camshaft: 'sync',
  trigger: 'sync',
  tdc: 'sync',
  rpm: 'speed',
  kv: 'secondary',
  hv: 'secondary',
  ignition: 'secondary',
}
const carries: Spelt = (written) =>
  CARRIED[written.trim().toLowerCase()] ?? oneOf(ofChannel.carries.options)(written)

const { shape: ofCapture } = captureSchema
const { shape: ofChannel } = channelSchema

/** Keys of job.yaml whose values people write in more than one way; `*` stands for any entry of a list. */
const OPENED: KeyPath = ['opened']
const ORDER: KeyPath = ['engine', 'firing_order']
const SPELLINGS: readonly (readonly [KeyPath, Spelt])[] = [
  [OPENED, day],
  [['closed'], day],
  [['vehicle', 'odometer'], odometer],
  [['vehicle', 'odometer', 'unit'], (written) => odometer(`1 ${written}`)?.unit],
  [['engine', 'cylinders'], cylinders],
  [ORDER, list],
  [['engine', 'fuel'], (written) => meantBy(FUEL_WORDS, written)?.means],
  [['engine', 'ignition'], (written) => meantBy(IGNITION_WORDS, written)?.means],
  [['engine', 'displacement_l'], leading(/^(?:l|litres?|liters?)$/i)],
  [['instrument', 'voltage_uncertainty_percent'], leading(/^%$/)],
  ...(['captures', 'traces'] as const).flatMap((recordings): (readonly [KeyPath, Spelt])[] => [
    [[recordings, '*', 'stage'], oneOf(ofCapture.stage.options)],
    [[recordings, '*', 'taken'], moment],
    [[recordings, '*', 'time', 'sample_rate_hz'], sampleRateOf],
    [[recordings, '*', 'channels', '*', 'carries'], carries],
    [[recordings, '*', 'channels', '*', 'unit'], oneOf(ofChannel.unit.options)],
    [[recordings, '*', 'channels', '*', 'polarity'], oneOf(['auto', 'positive', 'negative'])],
  ]),
  [['review', '*', 'at'], day],
  [['review', '*', 'of'], oneOf(reviewSchema.shape.of.options)],
  [['review', '*', 'stage'], oneOf(ofCapture.stage.options)],
  [['captures', '*', 'condition'], oneOf(ofCapture.condition.options)],
  [['captures', '*', 'engine'], oneOf(ofCapture.engine.options)],
]

/**
 * job.yaml with the usual spellings of its values put as the schema has them: Idle, petrol, 176005 km, 250k. A word that
 * says less than what it is taken for (petrol for E10) is told.
 */
export function withUsualSpellings(yaml: YamlFile): YamlFile {
  if (yaml.data === undefined) return yaml
  const data = structuredClone(yaml.data)
  const problems: Problem[] = []
  for (const [pattern, spelt] of SPELLINGS)
    for (const path of pathsOf(data, pattern)) {
      const value = valueAt(data, path)
      // 1342 without hyphens is a figure to YAML.
      const written = typeof value === 'number' && pattern === ORDER ? String(value) : value
      if (typeof written !== 'string') continue
      const open = pattern === OPENED ? [] : openMoments(path, written, valueAt(data, OPENED))
      const meant = open.length > 0 ? open[0] : spelt(written)
      if (meant === undefined || meant === written) continue
      put(data, path, meant)
      if (open.length > 1)
        problems.push(
          problem('date-open', yaml.valuePlace(path), { found: written, meant: open.join(', '), count: 1 }),
        )
      if (path.at(-1) === 'fuel' && meantBy(FUEL_WORDS, written)?.near)
        problems.push(
          problem(
            'taken-as',
            { ...yaml.valuePlace(path), severity: 'warn' },
            { found: written, taken: String(meant) },
          ),
        )
    }
  return { ...yaml, data, problems: [...yaml.problems, ...problems] }
}

/**
 * A moment of which the day could be two: the one on the job's own days, or where these do not settle it, both. Empty
 * where the day is certain by itself.
 */
function openMoments(path: KeyPath, written: string, opened: unknown): readonly string[] {
  const meant = path.at(-1) === 'taken' ? momentsMeant(written) : []
  if (meant.length < 2 || typeof opened !== 'string' || !isDay(opened)) return meant.length < 2 ? [] : meant
  const { from, to } = daysOfJob({ opened, captures: [] })
  const within = meant.filter((at) => at.slice(0, 10) >= from! && at.slice(0, 10) <= to!)
  return within.length === 1 ? within : meant
}

/** The paths a pattern stands for in the data. */
function pathsOf(data: unknown, pattern: KeyPath): KeyPath[] {
  return pattern.reduce<KeyPath[]>(
    (paths, part) =>
      paths.flatMap((path) => {
        if (part !== '*') return [[...path, part]]
        const entries = valueAt(data, path)
        return Array.isArray(entries) ? entries.map((_, i) => [...path, i]) : []
      }),
    [[]],
  )
}

function put(data: unknown, path: KeyPath, value: unknown): void {
  const parent = valueAt(data, path.slice(0, -1)) as Record<PropertyKey, unknown>
  parent[path.at(-1)!] = value
}
