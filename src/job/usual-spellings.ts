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

/** `4 cyl`, `four`, `V6`. */
const COUNTS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']
const cylinders: Spelt = (written) => {
  const layout = /^[VWILRHB]-?(\d{1,2})$/i.exec(written.trim())?.[1]
  if (layout !== undefined) return Number(layout)
  const word = COUNTS.indexOf(written.trim().toLowerCase().split(/[\s-]/)[0]!)
  return word >= 0 ? word + 1 : leading(/^(?:-?\s*(?:cyl|zyl|cil)\w*\.?)$/i)(written)
}
/** A word of the trade for one of a closed list, in the languages of the reports; else one of the list, whatever its capitals. */
const called =
  (words: readonly string[], names: Readonly<Record<string, RegExp>>): Spelt =>
  (written) =>
    oneOf(words)(written) ?? Object.entries(names).find(([, name]) => name.test(written.trim()))?.[0]
const STAGES = {
  before: /^(?:before (?:the )?repair|pre|vor(?:her)?|avant|antes|prima|faulty|bad|as found)$/i,
  after:
    /^(?:after (?:the )?repair|post|nach(?:her)?|apr[e\u00e8]s|despu[e\u00e9]s|dopo|fixed|repaired|as left)$/i,
}
const CONDITIONS = {
  idle: /^(?:at idle|idling|warm idle|leerlauf|(?:au )?ralenti|(?:al )?ralent[i\u00ed]|m[i\u00ed]nimo)$/i,
  '2500 rpm': /^2500(?: ?(?:rpm|1\/min|u\/min|tr\/min|min-1))?$/i,
  cranking: /^(?:crank|starting|anlassen|d\u00e9marrage|arranque)$/i,
  snap: /^(?:snap throttle|blip|gassto\u00df|coup d.acc\u00e9l\u00e9rateur|acelerada)$/i,
  cruise: /^(?:cruising|road|driving|fahrt|fahren|route|carretera)$/i,
}
const WARMTHS = {
  warm: /^(?:hot|warmed up|hei\u00df|betriebswarm|chaud|caliente|caldo)$/i,
  cold: /^(?:kalt|froid|fr[i\u00ed]o|freddo)$/i,
}
const UNITS = {
  V: /^volts?$/i,
  kV: /^kilovolts?$/i,
  mV: /^millivolts?$/i,
  A: /^amp(?:ere)?s?$/i,
  mA: /^milliamp(?:ere)?s?$/i,
  rpm: /^(?:1\/min|u\/min|tr\/min|r\/min|min-1)$/i,
  Hz: /^hertz$/i,
}
/** `All`, `every`, `1-4`, `1,3,4,2`. */
const seen: Spelt = (written) => {
  if (/^(?:all|every|each|alle|tous|todos|todas|tutti)$/i.test(written.trim())) return 'all'
  const range = /^(\d{1,2})\s*-\s*(\d{1,2})$/.exec(written.trim())
  const [from, to] = [Number(range?.[1]), Number(range?.[2])]
  if (range && from < to) return Array.from({ length: to - from + 1 }, (_, i) => from + i)
  return list(written)
}
/** A name alone, where keys are asked for. */
const named: Spelt = (written) => (written.trim() === '' ? undefined : { name: written.trim() })
/** `T. Sample, certificate 11`. */
const technician: Spelt = (written) => {
  const [name = '', ...rest] = written.split(',').map((part) => part.trim())
  if (name === '') return undefined
  return rest.length === 0 ? { name } : { name, certificate: rest.join(', ') }
}
/** `500 kS/s` or `2 us` in the place of the clock. */
const clock: Spelt = (written) => {
  const hz = sampleRateOf(written)
  return hz === undefined ? undefined : { sample_rate_hz: hz }
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
const CONDITION: KeyPath = ['captures', '*', 'condition']
const SEEN = {
  captures: ['captures', '*', 'channels', '*', 'cylinders'],
  traces: ['traces', '*', 'channels', '*', 'cylinders'],
} as const satisfies Record<string, KeyPath>
const SPELLINGS: readonly (readonly [KeyPath, Spelt])[] = [
  [OPENED, day],
  [['closed'], day],
  [['vehicle', 'odometer'], odometer],
  [['vehicle', 'odometer', 'unit'], (written) => odometer(`1 ${written}`)?.unit],
  [['shop'], named],
  [['technician'], technician],
  [['vehicle', 'year'], (written) => (/^\d{4}$/.test(written.trim()) ? Number(written) : undefined)],
  [['engine', 'cylinders'], cylinders],
  [ORDER, list],
  [['engine', 'fuel'], (written) => meantBy(FUEL_WORDS, written)?.means],
  [['engine', 'ignition'], (written) => meantBy(IGNITION_WORDS, written)?.means],
  [['engine', 'displacement_l'], leading(/^(?:l|litres?|liters?)$/i)],
  [['instrument', 'voltage_uncertainty_percent'], leading(/^%$/)],
  ...(['captures', 'traces'] as const).flatMap((recordings): (readonly [KeyPath, Spelt])[] => [
    [[recordings, '*', 'stage'], called(ofCapture.stage.options, STAGES)],
    [[recordings, '*', 'time'], clock],
    [SEEN[recordings], seen],
    [[recordings, '*', 'taken'], moment],
    [[recordings, '*', 'time', 'sample_rate_hz'], sampleRateOf],
    [[recordings, '*', 'channels', '*', 'carries'], carries],
    [[recordings, '*', 'channels', '*', 'unit'], called(ofChannel.unit.options, UNITS)],
    [[recordings, '*', 'channels', '*', 'polarity'], oneOf(['auto', 'positive', 'negative'])],
  ]),
  [['review', '*', 'at'], day],
  [['review', '*', 'of'], oneOf(reviewSchema.shape.of.options)],
  [['review', '*', 'stage'], oneOf(ofCapture.stage.options)],
  [CONDITION, called(ofCapture.condition.options, CONDITIONS)],
  [['captures', '*', 'engine'], called(ofCapture.engine.options, WARMTHS)],
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
      const written = asWritten(value, pattern)
      if (typeof written !== 'string') continue
      const open = pattern === OPENED ? [] : openMoments(path, written, valueAt(data, OPENED))
      const meant = open.length > 0 ? open[0] : spelt(written)
      if (meant === undefined || meant === value) continue
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

/** 1342 without hyphens and a bare 2500 are figures to YAML; `[all]` is a list of one word. */
function asWritten(value: unknown, pattern: KeyPath): unknown {
  if (typeof value === 'number' && (pattern === ORDER || pattern === CONDITION)) return String(value)
  const isSeen = pattern === SEEN.captures || pattern === SEEN.traces
  return isSeen && Array.isArray(value) && value.length === 1 ? (value[0] as unknown) : value
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
