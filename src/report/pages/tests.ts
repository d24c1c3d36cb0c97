import type { TestRecord } from '../../records/result.ts'
import { decimalSign, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'
import { say, sayAgain, sayer, wordOf } from '../../texts/say.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import { photoRows } from './evidence.ts'
import { OUTCOME_WORDS } from './outcome-words.ts'
import type { PageInput, Section } from './page-input.ts'
import { conditionWord, dateWords, findingWords, pair, series, stepWord, timeWords } from './words.ts'

type Texts = PageInput['texts']

/** Every test of the log in order: a line a result, and its story only where it has one. What chance and reckoning say in figures stands in the annex. */
export function tests(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  const photos = photoRows(input)
  // The record says what was not tested.
  if (result.tests.length === 0) return { title: t('report.tests.title'), level: 2, blocks: photos }
  const days = new Set(result.tests.map(({ at }) => at.slice(0, 10)))
  const day = days.size === 1 ? [...days][0]! : undefined
  const beyond = beyondYardstick(result)
  const shared = sharedCaveats(result.tests)
  return {
    title: t('report.tests.title'),
    level: 2,
    blocks: [
      paragraph(
        [
          t('report.tests.intro'),
          ...(day ? [t('report.tests.day', { date: dateWords(texts, day) })] : []),
        ].join(' '),
        { keepWithNext: true },
      ),
      table({
        caption: t('report.tests.title'),
        dense: true,
        size: 'fine',
        columns: [
          { title: t('report.tests.number'), grow: 0 },
          { title: t('report.tests.test'), grow: 1 },
          { title: t('report.tests.finding'), grow: 1.2 },
          { title: t('report.tests.meaning'), grow: 1.6 },
        ],
        marks: result.tests.map(({ mark }) => mark),
        rows: result.tests.map((test) => [
          test.mark,
          what(texts, test, day),
          finding(texts, test, beyond.has(test.mark)),
          meaning(texts, test, shared),
        ]),
      }),
      ...[...shared].map(([words, marks]) =>
        paragraph(say(texts, 'report.tests.shared', { marks: marks.join(', '), words }), { color: 'quiet' }),
      ),
      ...photos,
    ],
  }
}

/** Marks of tests whose readings lie within the maker's limits and beyond the limit this program holds them against. */
function beyondYardstick({ conclusion }: PageInput['result']): ReadonlySet<string> {
  return new Set(
    conclusion.findings.filter(({ order }) => order === 'out of order').flatMap(({ marks }) => marks),
  )
}

/** What limits a kind of test, whatever came out of it. */
const CAVEATS: ReadonlySet<string> = new Set([
  'tests.spray.basis-short',
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

/** Step and place with the running of the engine; below them when, and where on its trace. The day is left out where all tests share it. */
function what(
  texts: Texts,
  { step, place, at, condition, stage, instant }: TestRecord,
  day: string | undefined,
): Cell {
  const setting = [
    day === undefined ? timeWords(at) : timeWords(at).slice(11),
    condition === null ? '' : conditionWord(texts, condition).replaceAll(' ', '\u00a0'),
    stage === 'after' ? say(texts, 'report.tests.after') : '',
    instant?.replace('.', decimalSign(texts.language)) ?? '',
  ]
  return { text: pair(texts, stepWord(texts, step), place), note: setting.filter(Boolean).join(', ') }
}

/** Findings that stand out on the page. */
const STRONG: ReadonlySet<string> = new Set(['response', 'out of limits'])

/** The finding and the readings as logged with the maker's limits. Within these and beyond our own limit, both are said. */
function finding(texts: Texts, test: TestRecord, beyond: boolean): Cell {
  const seen =
    test.outcome === null
      ? []
      : [say(texts, 'report.tests.outcome', { words: outcomeWords(texts, test.outcome) })]
  const found = test.finding === 'recorded' ? '' : findingWords(texts, test)
  const both = test.finding === 'in limits' && beyond ? say(texts, 'report.tests.beyond') : found
  return {
    text: pair(texts, both, series(texts, [...readingsWords(texts, test.readings), ...seen])),
    strong: STRONG.has(test.finding) || (test.finding === 'in limits' && beyond),
  }
}

/** An outcome of the README's list in the reader's words; several joined by semicolons each by itself. */
const outcomeWords = (texts: Texts, outcome: string): string =>
  series(
    texts,
    outcome.split('; ').map((word) => wordOf(texts, OUTCOME_WORDS, word.trim().toLowerCase())),
  )

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

/** Sentences that give chance and reckoning in figures: they stand in the annex. */
const FIGURE_SENTENCES: ReadonlySet<string> = new Set([
  'tests.spray.basis',
  'tests.spray.basis-places',
  'tests.spray.basis-guarded',
])
export const isFigureSentence = ({ key }: { key: string }): boolean => FIGURE_SENTENCES.has(key)

/** What it was found to mean, where it says more than the reading and its limits; then the technician's note. */
function meaning(
  texts: Texts,
  { meaning: all, observed, note, finding: found }: TestRecord,
  shared: ReadonlyMap<string, unknown>,
): Cell {
  const plain = found === 'in limits' ? all.filter(({ key }) => !WITHIN.has(key)) : all
  const said = plain
    .filter((sentence) => !shared.has(sentence.text) && !isFigureSentence(sentence))
    .map((sentence) => shortly(texts, sentence))
    .join(' ')
  const noted = note === null ? '' : say(texts, 'report.tests.note', { words: note })
  const notes = [observed ? say(texts, 'report.tests.observed') : '', noted].filter(Boolean).join(' ')
  return said === '' ? { text: notes } : { text: said, ...(notes === '' ? {} : { note: notes }) }
}

/** What a spray did, in fewer words than the record has: the place stands beside, and whether to spray it again is the same on every row. */
const SHORT = {
  'tests.spray.unclear': 'report.tests.short.unclear',
  'tests.spray.no-response': 'report.tests.short.no-response',
  'tests.spray.response-up': 'report.tests.short.up',
  'tests.spray.response-down': 'report.tests.short.down',
} as const

const shortly = (texts: Texts, { key, args, text }: TestRecord['meaning'][number]): string =>
  Object.hasOwn(SHORT, key) ? sayAgain(texts, { key: SHORT[key as keyof typeof SHORT], args }) : text

/** Sentences that only say again that a reading is within its limits. */
const WITHIN: ReadonlySet<string> = new Set([
  'tests.fuel-pressure.in-order',
  'tests.fuel-pressure.caveat',
  'tests.fuel-pressure.holds',
  'tests.trim.in-order',
  'tests.trim.maker-in-order',
  'tests.vacuum.in-order',
])
