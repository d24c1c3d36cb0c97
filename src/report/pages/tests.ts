import type { TestRecord } from '../../records/result.ts'
import { decimalSign, formatArg, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { isPressureUnit, toKpa } from '../../units/pressure.ts'
import type { Block } from '../blocks/block.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import { chartBlocks } from './chart-blocks.ts'
import { OUTCOME_WORDS } from './outcome-words.ts'
import type { PageInput, Section } from './page-input.ts'
import {
  computedWord,
  conditionWord,
  findingWords,
  pair,
  quantity,
  series,
  stepWord,
  timeWords,
} from './words.ts'

type Texts = PageInput['texts']

/** Every test of the log in order, with its readings, its finding and what it was found to mean. */
export function tests({ result, texts, charts }: PageInput): Section {
  const t = sayer(texts)
  const plans = charts.filter(({ id, place }) => place === 'tests' && id !== 'causes')
  if (result.tests.length === 0 && plans.length === 0)
    return { title: t('report.tests.title'), level: 2, blocks: [paragraph(t('report.tests.none'))] }
  const shared = sharedCaveats(result.tests)
  return {
    title: t('report.tests.title'),
    level: 2,
    blocks: [
      paragraph(t('report.tests.intro'), { keepWithNext: true }),
      ...[...shared].map(([words, marks]) =>
        paragraph(say(texts, 'report.tests.shared', { marks: marks.join(', '), words }), {
          keepWithNext: true,
          color: 'quiet',
        }),
      ),
      table({
        caption: t('report.tests.title'),
        columns: [
          { title: t('report.tests.number'), grow: 0 },
          { title: t('report.tests.test'), grow: 1 },
          { title: t('report.tests.finding'), grow: 1 },
          { title: t('report.tests.meaning'), grow: 1 },
        ],
        rows: result.tests.map((test) => [
          test.mark,
          what(texts, test),
          finding(texts, test),
          meaning(texts, test, shared),
        ]),
      }),
      ...leakHunt(result.leak_hunt),
      ...chartBlocks(plans),
    ],
  }
}

/** The next joint, and ports that were left closed, above the drawing of the hunt. */
function leakHunt(hunt: PageInput['result']['leak_hunt']): Block[] {
  const said = [...(hunt?.next ? [hunt.next.says] : []), ...(hunt?.left_capped ?? []).map(({ says }) => says)]
  return said.map(({ text }) => paragraph(text, { keepWithNext: true }))
}

/** What limits a kind of test, whatever came out of it. */
const CAVEATS: ReadonlySet<string> = new Set([
  'tests.spray.caveat',
  'tests.fuel-pressure.caveat',
  'tests.vacuum.as-gauge',
  'tests.vacuum.as-absolute',
])

/** Caveats that hold for more than one test, with the marks of these: said once, above the table. */
function sharedCaveats(tests: readonly TestRecord[]): ReadonlyMap<string, readonly string[]> {
  const marks = new Map<string, string[]>()
  for (const { mark, meaning } of tests) {
    for (const { key, text } of meaning)
      if (CAVEATS.has(key)) marks.set(text, [...(marks.get(text) ?? []), mark])
  }
  return new Map([...marks].filter(([, of]) => of.length > 1))
}

/** Step and place; below them when, at which running of the engine, and where on its trace. */
function what(texts: Texts, { step, place, at, condition, stage, instant }: TestRecord): Cell {
  const setting = [
    timeWords(at),
    condition === null ? '' : conditionWord(texts, condition).replaceAll(' ', '\u00a0'),
    stage === 'after' ? say(texts, 'report.tests.after') : '',
    instant?.replace('.', decimalSign(texts.language)) ?? '',
  ]
  return { text: pair(texts, stepWord(texts, step), place), note: setting.filter(Boolean).join(', ') }
}

/** The finding, readings as logged with the maker's limits, and what was computed from them and is not said beside. */
function finding(texts: Texts, test: TestRecord): Cell {
  const seen =
    test.outcome === null
      ? []
      : [say(texts, 'report.tests.outcome', { words: outcomeWords(texts, test.outcome) })]
  const computed = unsaidFigures(test).map(
    ([name, figure]) => `${computedWord(texts, name)} ${figureWords(texts, figure)}`,
  )
  return {
    lead: findingWords(texts, test),
    text: series(texts, [...readingsWords(texts, test.readings), ...seen]),
    ...(computed.length > 0 ? { note: series(texts, computed) } : {}),
  }
}

/** An outcome of the README's list in the reader's words; several joined by semicolons each by itself. */
const outcomeWords = (texts: Texts, outcome: string): string =>
  series(
    texts,
    outcome.split('; ').map((word) => wordOf(texts, OUTCOME_WORDS, word.trim().toLowerCase())),
  )

type Figure = TestRecord['computed'][string]

/** Computed figures that neither a reading nor a sentence of the meaning gives: the same figure is not printed twice in a row. */
function unsaidFigures({ computed, meaning, readings }: TestRecord): (readonly [string, Figure])[] {
  const said = meaning.flatMap(({ args }) => Object.entries(args))
  const isSaid = (name: string, figure: Figure) =>
    said.some(([as, arg]) =>
      typeof arg === 'object'
        ? 'unit' in arg && sameFigure(arg, figure)
        : as === name && arg === figure.value,
    )
  const isLogged = (figure: Figure) => readings.some((reading) => isSameReading(reading, figure))
  return Object.entries(computed).filter(([name, figure]) => !isSaid(name, figure) && !isLogged(figure))
}

/** The reading itself, in its own unit or in kPa: its uncertainty is the gauge's, which the limits give. */
function isSameReading({ value, unit }: Reading, figure: Figure): boolean {
  if (value === null || unit === null) return false
  if (unit === figure.unit) return value === figure.value
  return (
    figure.unit === 'kPa' && isPressureUnit(unit) && Math.abs(toKpa(value, unit) / figure.value - 1) < SAME
  )
}

/** Records are rounded to six digits. */
const SAME = 1e-5

const sameFigure = (a: Figure, b: Figure): boolean =>
  a.value === b.value && a.low === b.low && a.high === b.high && a.unit === b.unit

function figureWords(texts: Texts, { value, low, high, unit }: Figure): string {
  const exact = low === value && high === value
  return exact
    ? quantity(texts, value, { unit, ...(Number.isInteger(value) ? { decimals: 0 } : {}) })
    : formatArg({ value, low, high, unit } as never, { format: undefined, language: texts.language })
}

type Reading = TestRecord['readings'][number]

/** Readings one after the other; limits that all of them share are said once, at the end. */
function readingsWords(texts: Texts, readings: readonly Reading[]): string[] {
  const limits = readings.map((reading) => limitWords(texts, reading, 'report.tests.expected'))
  const shared = readings.length > 1 && limits[0] !== '' && new Set(limits).size === 1
  const words = readings.map(
    (reading, i) => readingWords(texts, reading) + (limits[i] === '' || shared ? '' : ` (${limits[i]})`),
  )
  return shared ? [...words, limitWords(texts, readings[0]!, 'report.tests.expected-each')] : words
}

/** Most decimals of a reading shown; a logged figure is shown as it was written. */
const MOST_DECIMALS = 3
const asLogged = (texts: Texts, value: number) =>
  formatNumber(value, Math.min(MOST_DECIMALS, (String(value).split('.')[1] ?? '').length), texts.language)

/** Readings that go by another name in print. */
const READINGS: Readonly<Record<string, WordKey>> = {
  'starting-fluid': 'report.reading.starting-fluid',
  propane: 'report.reading.propane',
  'key-on': 'report.reading.key-on',
  idle: 'report.reading.idle',
  hold: 'report.reading.hold',
  manifold: 'report.reading.manifold',
  CO2: 'report.reading.co2',
  O2: 'report.reading.o2',
  barometer: 'report.reading.barometer',
  coil: 'report.reading.coil',
  lead: 'report.reading.lead',
  plug: 'report.reading.plug',
  injector: 'report.reading.injector',
  rotor: 'report.reading.rotor',
  'coil lead': 'report.reading.coil-lead',
  valve: 'report.reading.valve',
  ignition: 'report.reading.ignition',
  'idle-valve': 'report.reading.idle-valve',
  EGR: 'report.reading.egr',
  purge: 'report.reading.purge',
  ethanol: 'report.reading.ethanol',
  water: 'report.reading.water',
  raised: 'report.reading.raised',
  'full-load': 'report.reading.full-load',
  none: 'report.reading.none',
  'bank 1': 'report.reading.bank-1',
  'bank 2': 'report.reading.bank-2',
}

function readingWords(texts: Texts, { reading, value, unit }: Reading): string {
  const cylinder = /^cylinder (\d+)$/.exec(reading)?.[1]
  const name =
    cylinder === undefined
      ? wordOf(texts, READINGS, reading)
      : say(texts, 'report.tests.cylinder', { cylinder })
  return (
    name + (value === null ? '' : `\u00a0${asLogged(texts, value)}${unitSign(unit ?? '1', texts.language)}`)
  )
}

function limitWords(
  texts: Texts,
  { expected_low: low, expected_high: high }: Reading,
  key: KeyNeeding<{ low: Arg; high: Arg }>,
): string {
  const end = (v: number | null) => (v === null ? '\u2026' : asLogged(texts, v))
  return low === null && high === null ? '' : say(texts, key, { low: end(low), high: end(high) })
}

function meaning(
  texts: Texts,
  { meaning, observed, note }: TestRecord,
  shared: ReadonlyMap<string, unknown>,
): Cell {
  const said = meaning
    .filter(({ text }) => !shared.has(text))
    .map(({ text }) => text)
    .join(' ')
  const noted = note === null ? '' : say(texts, 'report.tests.note', { words: note })
  const notes = [observed ? say(texts, 'report.tests.observed') : '', noted].filter(Boolean).join(' ')
  return said === '' ? { text: notes } : { text: said, ...(notes === '' ? {} : { note: notes }) }
}
