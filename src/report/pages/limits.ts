import { unitSign } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'

/** Every limit a verdict hung on, with its origin by number (many share one); a shop's own limits are marked. */
export function limits({ result, texts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.limits.${key}`)
  const changed = result.limits.filter((limit) => limit.changed)
  const origins = [...new Set(result.limits.map(({ origin }) => origin))]
  const sourceOf = (key: string) => result.sources.find((source) => source.key === key)?.text ?? key
  return {
    title: t('title'), level: 2,
    blocks: [
      paragraph(changed.length === 0 ? t('as-shipped') : say(texts, 'report.limits.some-changed', { count: changed.length }), { keepWithNext: true }),
      table({
        caption: t('title'),
        columns: [
          { title: t('meaning'), grow: 1 }, { title: t('key'), grow: 0 }, { title: t('value'), grow: 0, align: 'right' },
          { title: t('origin'), grow: 0, align: 'right' },
        ],
        rows: result.limits.map((limit) => [
          limit.meaning, limit.key,
          { text: `${String(limit.value).replace('-', '\u2212')}${unitSign(limit.unit, texts.language)}`, ...(limit.changed ? { note: t('changed') } : {}) },
          String(origins.indexOf(limit.origin) + 1),
        ]),
      }),
      paragraph(t('origins'), { keepWithNext: true }),
      list(origins.map(sourceOf), { numbered: true }),
    ],
  }
}
