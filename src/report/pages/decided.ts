import { say, sayer } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { table } from '../blocks/table.ts'
import { decidedFigures } from './decided-figures.ts'
import type { PageInput } from './page-input.ts'

/** The figures the conclusion rests on, each against its limit and beside the same figure after the work; nothing where nothing was out of order. What names the fault comes first. */
export function decidedTable(
  { result, texts }: PageInput,
  size: 'fine' | 'small',
  mostRows: number,
): Block[] {
  const t = sayer(texts)
  const figures = decidedFigures(result, texts)
  if (figures.length === 0) return []
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
      rows: figures
        .slice(0, mostRows)
        .map(({ name, asFound, limit, after, marks }) => [
          name,
          asFound,
          limit,
          ...(worked ? [after ?? t('report.decided.not-again')] : []),
          marksWords(marks),
        ]),
    }),
  ]
}

/** First and last of many. */
const marksWords = (marks: readonly string[]): string =>
  marks.length > 3 ? `${marks[0]}\u2026${marks.at(-1)}` : marks.join(', ')
