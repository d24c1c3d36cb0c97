import { formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say, sayer } from '../../texts/say.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'

type Limit = PageInput['result']['limits'][number]

/** Every limit a verdict hung on, in one table; where it comes from by a letter, since many share an origin. A shop's own limits are marked. */
export function limits({ result, texts }: PageInput): Section {
  const t = sayer(texts)
  const changed = result.limits.filter((limit) => limit.changed)
  const origins = [...new Set(result.limits.map(({ origin }) => origin))]
  const sourceOf = (key: string) => result.sources.find((source) => source.key === key)?.text ?? key
  return {
    title: t('report.limits.title'),
    level: 2,
    blocks: [
      paragraph(
        changed.length === 0
          ? t('report.limits.as-shipped')
          : say(texts, 'report.limits.some-changed', { count: changed.length }),
        { keepWithNext: true },
      ),
      paragraph(t('report.limits.origins'), { keepWithNext: true }),
      list(origins.map(sourceOf), { labels: origins.map((_, i) => letter(i)) }),
      table({
        caption: t('report.limits.title'),
        dense: true,
        columns: [
          { title: t('report.limits.meaning'), grow: 1 },
          { title: t('report.limits.value'), grow: 0, align: 'right' },
          { title: t('report.limits.origin'), grow: 0 },
        ],
        rows: origins.flatMap((origin, i) =>
          result.limits
            .filter((limit) => limit.origin === origin)
            .map((limit) => [words(limit, texts), valueOf(limit, texts), letter(i)]),
        ),
      }),
    ],
  }
}

/** "a" for the first origin. */
const letter = (i: number): string => String.fromCodePoint('a'.codePointAt(0)! + i)

/** The limit as it was set, with every decimal it was given. */
const valueOf = ({ value, unit }: Limit, { language }: PageInput['texts']): string =>
  formatNumber(value, String(value).split('.')[1]?.length ?? 0, language) + unitSign(unit, language)

/** What is limited, and the name it is changed by. */
const words = ({ meaning, key, changed }: Limit, texts: PageInput['texts']): string =>
  say(texts, changed ? 'report.limits.entry-changed' : 'report.limits.entry', { meaning, key })
