import type { Result } from '../../records/result.ts'
import { decimalsFor, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { table } from '../blocks/table.ts'
import type { PageInput } from './page-input.ts'
import { conditionWord } from './words.ts'

type Texts = PageInput['texts']
type Finding = Result['conclusion']['findings'][number]
type Size = NonNullable<Finding['size']>

/** What a finding's figure measures. */
const FIGURES = {
  mixture: 'report.decided.mixture',
  circuit: 'report.decided.circuit',
  misfire: 'report.decided.misfire',
  'firing-voltage': 'report.decided.firing-voltage',
  'burn-time': 'report.decided.burn-time',
  oscillation: 'report.decided.oscillation',
  compression: 'report.decided.compression',
  'fuel-pressure': 'report.decided.fuel-pressure',
  trim: 'report.decided.trim',
  gas: 'report.decided.gas',
  vacuum: 'report.decided.vacuum',
  leak: 'report.decided.leak',
  code: 'report.decided.code',
  part: 'report.decided.part',
  'idle-speed': 'report.decided.idle-speed',
} as const satisfies Record<Finding['kind'], WordKey>

/** Most rows: what leads comes first in the record. */
const MOST_ROWS = 7

/** The figures the conclusion rests on, each against its limit and beside the same figure after the work; nothing where nothing was out of order. */
export function decidedTable({ result, texts }: PageInput, size: 'fine' | 'small'): Block[] {
  const { findings } = result.conclusion
  const t = sayer(texts)
  const odd = findings.filter(
    (f) => f.state === 'as found' && f.size !== null && ['out of order', 'unsure'].includes(f.order),
  )
  if (odd.length === 0) return []
  const after = findings.filter((f) => f.state === 'after')
  const worked = result.conclusion.repair.why !== 'none'
  return [
    table({
      caption: t('report.decided.title'),
      size,
      dense: true,
      columns: [
        { title: t('report.decided.title'), grow: 1.4 },
        { title: t('report.ccc.as-found'), grow: 1, align: 'right' },
        { title: t('report.decided.limit'), grow: 0, align: 'right' },
        ...(worked ? [{ title: t('report.ccc.after'), grow: 1, align: 'right' as const }] : []),
        { title: say(texts, 'report.column.mark'), grow: 0 },
      ],
      rows: odd.slice(0, MOST_ROWS).map((f) => {
        const again = after.find((a) => isSameFigure(f, a))
        return [
          figureName(texts, f),
          figureWords(texts, f.size!),
          limitWords(texts, f.size!),
          ...(worked ? [again?.size ? figureWords(texts, again.size) : t('report.decided.not-again')] : []),
          marksWords(f.marks),
        ]
      }),
    }),
  ]
}

const isSameFigure = (a: Finding, b: Finding): boolean =>
  a.kind === b.kind &&
  a.reading === b.reading &&
  a.condition === b.condition &&
  a.where.place === b.where.place &&
  (a.kind !== 'trim' || a.where.bank === b.where.bank) &&
  a.size?.unit === b.size?.unit

function figureName(texts: Texts, { kind, where, reading, condition }: Finding): string {
  const place =
    where.place ??
    (where.bank !== null
      ? say(texts, 'report.ccc.bank', { bank: where.bank })
      : where.cylinders.length > 0
        ? say(texts, 'report.decided.cylinders', { cylinders: where.cylinders.join(', ') })
        : '')
  const read = reading === null || kind === 'idle-speed' || kind === 'vacuum' ? '' : reading
  const when = condition === null ? '' : conditionWord(texts, condition)
  return [say(texts, FIGURES[kind]), read, place, when].filter(Boolean).join(', ')
}

const number = (texts: Texts, value: number, { unit }: Size) =>
  formatNumber(value, decimalsFor(unit), texts.language)

function figureWords(texts: Texts, size: Size): string {
  const value = `${number(texts, size.value, size)}${unitSign(size.unit, texts.language)}`
  return size.low === size.high
    ? value
    : `${value}\u00a0(${number(texts, size.low, size)}\u2026${number(texts, size.high, size)})`
}

function limitWords(texts: Texts, size: Size): string {
  const { limit_low: low, limit_high: high } = size
  if (low !== null && high !== null) return `${number(texts, low, size)}\u2026${number(texts, high, size)}`
  if (high !== null) return `\u2264\u00a0${number(texts, high, size)}`
  return low === null ? '\u2013' : `\u2265\u00a0${number(texts, low, size)}`
}

/** First and last of many. */
const marksWords = (marks: readonly string[]): string =>
  marks.length > 3 ? `${marks[0]}\u2026${marks.at(-1)}` : marks.join(', ')
