import { formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import type { PageInput, Section } from './page-input.ts'

type Limit = PageInput['result']['limits'][number]

/** Limits in one row of two columns: few enough that a row can be moved whole. */
const IN_A_ROW = 10
/** Column of the values, pt. */
const VALUE_PT = 52

/** Every limit a verdict hung on, gathered by origin (many share one); a shop's own limits are marked. */
export function limits({ result, texts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.limits.${key}`)
  const changed = result.limits.filter((limit) => limit.changed)
  const origins = [...new Set(result.limits.map(({ origin }) => origin))]
  const sourceOf = (key: string) => result.sources.find((source) => source.key === key)?.text ?? key
  return {
    title: t('title'), level: 2,
    blocks: [
      paragraph(changed.length === 0 ? t('as-shipped') : say(texts, 'report.limits.some-changed', { count: changed.length }), { keepWithNext: true }),
      ...origins.flatMap((origin) => [
        paragraph(say(texts, 'report.limits.of-origin', { origin: sourceOf(origin) }), { face: 'semibold', keepWithNext: true, gapPt: 10 }),
        ...rows(result.limits.filter((limit) => limit.origin === origin), texts),
      ]),
    ],
  }
}

/** Rows of two columns, read down the left one and then down the right one. */
function rows(all: readonly Limit[], texts: PageInput['texts']): Block[] {
  const column = (some: readonly Limit[]) => list(some.map((limit) => words(limit, texts)), { labels: some.map((limit) => valueOf(limit, texts)), indentPt: VALUE_PT })
  return Array.from({ length: Math.ceil(all.length / IN_A_ROW) }, (_, i) => {
    const some = all.slice(i * IN_A_ROW, (i + 1) * IN_A_ROW)
    const left = leftOf(some)
    return beside([some.slice(0, left), some.slice(left)].filter(({ length }) => length > 0).map(column), { columns: 2 })
  })
}

/** How many go left so that the columns are as even as they can be, by the length of their words; the left one is never the shorter. */
function leftOf(some: readonly Limit[]): number {
  const lengths = some.map(({ meaning, key }) => meaning.length + key.length)
  const total = lengths.reduce((sum, length) => sum + length, 0)
  let left = 0
  for (let before = 0; left < some.length && before < total / 2; left++) before += lengths[left]!
  return left
}

/** The limit as it was set, with every decimal it was given. */
const valueOf = ({ value, unit }: Limit, { language }: PageInput['texts']): string =>
  formatNumber(value, String(value).split('.')[1]?.length ?? 0, language) + unitSign(unit, language)

function words({ meaning, key, changed }: Limit, texts: PageInput['texts']): string {
  return say(texts, changed ? 'report.limits.entry-changed' : 'report.limits.entry', { meaning, key })
}
