import type { Result } from '../../records/result.ts'
import { decimalsFor, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import type { Texts, WordKey } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { conditionWord } from './words.ts'

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

/** Which kinds decide before which: what names a fault, then what was tested for it, then its signs. */
const RANKS: readonly (readonly Finding['kind'][])[] = [
  ['mixture', 'circuit', 'misfire'],
  ['leak', 'compression', 'fuel-pressure', 'part'],
  ['trim', 'gas'],
  ['firing-voltage', 'burn-time', 'oscillation', 'vacuum', 'idle-speed', 'code'],
]

/** One figure the conclusion rests on, in words. */
export interface DecidedFigure {
  name: string
  asFound: string
  limit: string
  /** The same figure after the work; undefined where it was not read again. */
  after: string | undefined
  marks: readonly string[]
}

/** What was read with a port closed off is of the hunt, and decides least. */
const OF_THE_HUNT = /,/

/** The figures the conclusion rests on, what leads first; none where nothing was out of order. */
export function decidedFigures(result: Result, texts: Texts): DecidedFigure[] {
  const { findings } = result.conclusion
  const after = findings.filter((f) => f.state === 'after')
  const rank = ({ kind, condition }: Finding): number =>
    (OF_THE_HUNT.test(condition ?? '') ? RANKS.length : 0) + RANKS.findIndex((of) => of.includes(kind))
  return findings
    .toSorted((a, b) => rank(a) - rank(b))
    .flatMap((f): DecidedFigure[] => {
      if (f.state !== 'as found' || f.size === null || !['out of order', 'unsure'].includes(f.order))
        return []
      const again = after.find((a) => isSameFigure(f, a))?.size
      return [
        {
          name: figureName(texts, f),
          asFound: figureWords(texts, f.size),
          limit: limitWords(texts, f.size),
          after: again ? figureWords(texts, again) : undefined,
          marks: f.marks,
        },
      ]
    })
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
