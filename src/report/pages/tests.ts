import type { TestRecord } from '../../records/result.ts'
import { formatArg, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import { chart } from '../blocks/chart.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { timeWords, wordFor, wordOr } from './words.ts'

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
          { title: t('number'), grow: 0, align: 'right' }, { title: t('at'), grow: 0 }, { title: t('test'), grow: 2.2 },
          { title: t('readings'), grow: 2.4 }, { title: t('finding'), grow: 0 }, { title: t('meaning'), grow: 3 },
        ],
        rows: result.tests.map((test, i) => row(texts, test, i)),
      }),
      ...plans.map((plan) => chart(plan)),
    ],
  }
}

function row(texts: Texts, test: TestRecord, i: number): (Cell | string)[] {
  const where = [wordOr(texts, 'condition', test.condition ?? ''), test.stage === 'after' ? say(texts, 'report.tests.after') : '']
  return [
    String(i + 1),
    { text: timeWords(test.at).slice(0, 10), note: timeWords(test.at).slice(11) },
    { text: [wordFor(texts, 'step', test.step), test.place].filter(Boolean).join(': '), note: where.filter(Boolean).join(', ') },
    readings(texts, test),
    { text: wordFor(texts, 'finding', test.finding), strong: test.finding === 'response' || test.finding === 'out of limits' },
    meaning(texts, test),
  ].map((cell) => (typeof cell === 'string' || cell.note !== '' ? cell : { ...cell, note: undefined })) as (Cell | string)[]
}

/** Readings as logged with the maker's limits, then what was computed from them. */
function readings(texts: Texts, { readings, computed, outcome }: TestRecord): Cell {
  const number = (value: number) => formatNumber(value, Math.min(3, (String(value).split('.')[1] ?? '').length), texts.language)
  const logged = readings.map(({ reading, value, unit, expected_low: low, expected_high: high }) => {
    const shown = value === null ? '' : ` ${number(value)}${unitSign(unit ?? '1')}`
    const limits = low === null && high === null ? ''
      : ` (${say(texts, 'report.tests.expected', { low: low === null ? '\u2026' : number(low), high: high === null ? '\u2026' : number(high) })})`
    return `${wordOr(texts, 'reading', reading)}${shown}${limits}`
  })
  const found = Object.entries(computed).map(([name, interval]) =>
    `${wordOr(texts, 'computed', name)} ${formatArg(interval as never, { format: undefined, language: texts.language })}`)
  const seen = outcome === null ? [] : [say(texts, 'report.tests.outcome', { words: outcome })]
  return { text: [...logged, ...seen].join('; ') || '\u2013', ...(found.length > 0 ? { note: found.join('; ') } : {}) }
}

function meaning(texts: Texts, { meaning, observed, note }: TestRecord): Cell {
  const said = meaning.map(({ text }) => text).join(' ')
  const notes = [observed ? say(texts, 'report.tests.observed') : '', note ?? ''].filter(Boolean).join(' ')
  return said === '' ? { text: notes || '\u2013' } : { text: said, ...(notes === '' ? {} : { note: notes }) }
}
