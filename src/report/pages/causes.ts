import type { Result } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import { chart } from '../blocks/chart.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'

/** Ranked causes with what speaks for and against each, and the test that would tell them apart. Empty without either. */
export function causes({ result, texts, charts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.causes.${key}`)
  if (result.causes.length === 0 && !result.next_test) return { title: t('title'), level: 2, blocks: [] }
  const lines = (statements: Result['causes'][number]['for']) => statements.map(({ text }) => text).join(' ') || '\u2013'
  return {
    title: t('title'), level: 2,
    blocks: [
      paragraph(t('opinion'), { keepWithNext: true }),
      ...(result.causes.length === 0 ? [] : [table({
        caption: t('title'),
        columns: [
          { title: t('rank'), grow: 0, align: 'right' }, { title: t('cause'), grow: 1.4 },
          { title: t('probability'), grow: 0, align: 'right' }, { title: t('for'), grow: 2 }, { title: t('against'), grow: 2 },
        ],
        rows: result.causes.map((cause, i) => [
          String(i + 1),
          { text: say(texts, `cause.${cause.id}`), ...(cause.place === null ? {} : { note: cause.place }) },
          `${formatNumber(cause.probability * 100, 0, texts.language)} %`, lines(cause.for), lines(cause.against),
        ]),
      })]),
      ...charts.filter(({ id }) => id === 'causes').map((plan) => chart(plan)),
      ...(result.next_test ? [paragraph(result.next_test.says.text)] : []),
    ],
  }
}
