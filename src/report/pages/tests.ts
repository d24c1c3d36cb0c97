import type { TestRecord } from '../../records/result.ts'
import { formatArg, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import { chart } from '../blocks/chart.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { computedWord, quantity, timeWords, wordFor, wordOr } from './words.ts'

type Texts = PageInput['texts']

/** Every test of the log in order, with its readings, its finding and what it was found to mean. */
export function tests({ result, texts, charts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.tests.${key}`)
  const plans = charts.filter(({ id, place }) => place === 'tests' && id !== 'causes')
  if (result.tests.length === 0 && plans.length === 0) return { title: t('title'), level: 2, blocks: [paragraph(t('none'))] }
  return {
    title: t('title'), level: 2,
    blocks: [
      paragraph(t('intro'), { keepWithNext: true }),
      table({
        caption: t('title'),
        columns: [
          { title: t('number'), grow: 0, align: 'right' }, { title: t('test'), grow: 0.8 }, { title: t('finding'), grow: 1.3 },
          { title: t('meaning'), grow: 2.8 },
        ],
        rows: result.tests.map((test, i) => [String(i + 1), what(texts, test), finding(texts, test), meaning(texts, test)]),
      }),
      ...plans.map((plan) => chart(plan)),
    ],
  }
}

/** Step and place; below them when, and at which running of the engine. */
function what(texts: Texts, { step, place, at, condition, stage }: TestRecord): Cell {
  const setting = [timeWords(at), condition === null ? '' : wordOr(texts, 'condition', condition), stage === 'after' ? say(texts, 'report.tests.after') : '']
  return { text: [wordFor(texts, 'step', step), place].filter(Boolean).join(': '), note: setting.filter(Boolean).join(', ') }
}

/** The finding, readings as logged with the maker's limits, and what was computed from them. */
function finding(texts: Texts, test: TestRecord): Cell {
  const logged = test.readings.map((reading) => readingWords(texts, reading))
  const computed = Object.entries(test.computed).map(([name, { value, low, high, unit }]) => {
    const exact = low === value && high === value
    const shown = exact
      ? quantity(texts, value, { unit, ...(Number.isInteger(value) ? { decimals: 0 } : {}) })
      : formatArg({ value, low, high, unit } as never, { format: undefined, language: texts.language })
    return `${computedWord(texts, name)} ${shown}`
  })
  const seen = test.outcome === null ? [] : [say(texts, 'report.tests.outcome', { words: test.outcome })]
  return {
    lead: wordFor(texts, 'finding', test.finding), text: [...logged, ...seen].join('; '),
    ...(computed.length > 0 ? { note: computed.join('; ') } : {}),
  }
}

/** Most decimals of a reading shown; a logged figure is shown as it was written. */
const MOST_DECIMALS = 3

function readingWords(texts: Texts, { reading, value, unit, expected_low: low, expected_high: high }: TestRecord['readings'][number]): string {
  const number = (v: number) => formatNumber(v, Math.min(MOST_DECIMALS, (String(v).split('.')[1] ?? '').length), texts.language)
  const end = (v: number | null) => (v === null ? '\u2026' : number(v))
  const shown = value === null ? '' : ` ${number(value)}${unitSign(unit ?? '1')}`
  const limits = low === null && high === null ? '' : ` (${say(texts, 'report.tests.expected', { low: end(low), high: end(high) })})`
  return `${wordOr(texts, 'reading', reading)}${shown}${limits}`
}

function meaning(texts: Texts, { meaning, observed, note }: TestRecord): Cell {
  const said = meaning.map(({ text }) => text).join(' ')
  const notes = [observed ? say(texts, 'report.tests.observed') : '', note ?? ''].filter(Boolean).join(' ')
  return said === '' ? { text: notes } : { text: said, ...(notes === '' ? {} : { note: notes }) }
}
