import { verdictWord } from '../../charts/words.ts'
import type { CylinderRecord } from '../../records/result.ts'
import { unitSign } from '../../texts/format-quantity.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { REPAIR_WORDS } from '../../verdicts/verdict-words.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { table } from '../blocks/table.ts'
import type { PageInput } from './page-input.ts'
import { verdictSign } from './verdict-sign.ts'
import { computedWord, conditionWord, figureCell, figureLine } from './words.ts'

/** Figures whose shift a repair is judged by. */
const SHIFTS: Readonly<Record<string, WordKey>> = {
  late_rise_pct: 'report.shift.late-rise-pct',
  burn_ms: 'report.shift.burn-ms',
  firing_kv: 'report.shift.firing-kv',
  mid_kv: 'report.shift.mid-kv',
}

/** What the repair moved: every cylinder's shift with its interval, and the readings of the whole engine. */
export function shifts(input: PageInput): Block[] {
  const { result, texts } = input
  const t = sayer(texts)
  const { repair } = result
  const moved = [...new Set(repair.cylinders.flatMap((c) => Object.keys(c.shifts)))]
  const marks = (stage: 'before' | 'after', of: { cylinder: number; before: string; after: string }) =>
    result.cylinders
      .filter((c) => c.stage === stage && c.cylinder === of.cylinder && c.verdict === of[stage])
      .map(({ mark }) => mark)
      .join(', ')
  const word = (verdict: string) =>
    `${verdictSign(verdict as CylinderRecord['verdict'])} ${verdictWord(texts, verdict as CylinderRecord['verdict'])}`
  const cylinders =
    repair.cylinders.length === 0
      ? []
      : [
          heading(3, t('report.before-after.shifts')),
          table({
            caption: t('report.before-after.shifts'),
            dense: true,
            size: 'fine',
            columns: [
              { title: say(texts, 'report.column.cylinder'), grow: 0 },
              { title: t('report.before-after.before'), grow: 1 },
              { title: t('report.before-after.after'), grow: 1 },
              ...moved.map((key) => ({
                title: wordOf(texts, SHIFTS, key),
                grow: 1,
                align: 'right' as const,
              })),
              { title: t('report.before-after.outcome'), grow: 1.2 },
            ],
            rows: repair.cylinders.map((c) => [
              String(c.cylinder),
              { text: word(c.before), note: marks('before', c) },
              { text: word(c.after), note: marks('after', c) },
              ...moved.map((key) => figureCell(texts, c.shifts[key])),
              say(texts, REPAIR_WORDS[c.verdict]),
            ]),
          }),
        ]
  return [...cylinders, ...readings(input)]
}

/** Readings of the whole engine in both stages: trims, lambda, manifold pressure, swing. */
function readings({ result, texts }: PageInput): Block[] {
  const { readings } = result.repair
  if (readings.length === 0) return []
  const t = sayer(texts)
  const unit = (figure: { unit: string }) => unitSign(figure.unit, texts.language).trim()
  return [
    table({
      caption: t('report.before-after.readings'),
      dense: true,
      size: 'fine',
      columns: [
        { title: t('report.before-after.reading'), grow: 1.6 },
        { title: t('report.before-after.before'), grow: 1, align: 'right' },
        { title: t('report.before-after.after'), grow: 1, align: 'right' },
        { title: t('report.before-after.change'), grow: 1, align: 'right' },
        { title: t('report.before-after.unit'), grow: 0 },
      ],
      rows: readings.map((r) => [
        [
          computedWord(texts, r.name).replace(/,$/, ''),
          r.condition === null ? '' : conditionWord(texts, r.condition),
        ]
          .filter(Boolean)
          .join(', '),
        figureLine(texts, r.before),
        figureLine(texts, r.after),
        figureLine(texts, r.change),
        unit(r.change),
      ]),
    }),
  ]
}
