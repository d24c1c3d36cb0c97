import type { HistoryRecord } from '../../records/result.ts'
import { decimalsFor, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer } from '../../texts/say.ts'
import { chart } from '../blocks/chart.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { dateWords, odometerWords, series } from './words.ts'

type Texts = PageInput['texts']
type Change = HistoryRecord['changes'][number]

const FIGURES = {
  late_rise_pct: 'history.late-rise',
  firing_kv: 'history.firing',
  burn_ms: 'history.burn',
} as const satisfies Record<Change['figure'], WordKey>
const WHY = {
  unreadable: 'history.why.unreadable',
  altered: 'history.why.altered',
  'not signed': 'history.why.not-signed',
  'other engine': 'history.why.other-engine',
} as const satisfies Record<HistoryRecord['left_out'][number]['why'], WordKey>
const STAGES = { before: 'review.as-found', after: 'review.after' } as const satisfies Record<string, WordKey>

/** What has changed against the vehicle's own earlier reports; nothing where none were handed in. */
export function history(input: PageInput): Section {
  const { result, texts, charts } = input
  const t = sayer(texts)
  const title = t('report.history.title')
  const { history: it } = result
  if (!it) return { title, level: 2, blocks: [] }
  const says = it.says.map(({ text }) => paragraph(text, { keepWithNext: it.visits.length > 0 }))
  const left = it.left_out.map(({ output, why }) => `${output} (${t(WHY[why])})`)
  const leftOut =
    left.length === 0 ? [] : [paragraph(t('report.history.left-out', { outputs: series(texts, left) }))]
  if (it.visits.length === 0) return { title, level: 2, blocks: [...says, ...leftOut] }
  const alarms = result.limits.find(({ key }) => key === 'historyFalseAlarmPct')!.value
  const { late_rise_pct: rise, firing_kv: firing, burn_ms: burn } = it.scatter
  return {
    title,
    level: 2,
    blocks: [
      ...says,
      ...charts.filter(({ place }) => place === 'history').map((plan) => chart(plan, { floats: false })),
      ...(it.changes.length === 0 ? [] : [changesTable(texts, it.changes)]),
      paragraph(t('report.history.intro', { alarms })),
      paragraph(
        t('report.history.scatter', { rise: rise!, firing: firing!, burn: burn!, others: it.others }),
      ),
      ...leftOut,
    ],
  }
}

/** Figures that have changed, and every late rise. */
function changesTable(texts: Texts, changes: readonly Change[]) {
  const t = sayer(texts)
  const percent = (value: number, sign: boolean) =>
    `${sign && value > 0 ? '+' : ''}${formatNumber(value, 1, texts.language)}\u00a0%`
  return table({
    caption: t('report.history.title'),
    dense: true,
    columns: [
      { title: t('report.history.figure'), grow: 1.4 },
      { title: t('report.history.now'), grow: 1, align: 'right' },
      { title: t('report.history.reference'), grow: 0.8, align: 'right' },
      { title: t('report.history.change'), grow: 0.5, align: 'right' },
      { title: t('report.history.most'), grow: 0.8, align: 'right' },
    ],
    rows: changes
      .filter((c) => c.changed || c.figure === 'late_rise_pct')
      .map((c) => {
        const number = (value: number) => formatNumber(value, decimalsFor(c.now.unit), texts.language)
        const what = say(texts, 'report.review.cylinder', { cylinder: c.cylinder, when: t(STAGES[c.stage]) })
        return [
          `${what}: ${t(FIGURES[c.figure])}`,
          `${number(c.now.value)}${unitSign(c.now.unit, texts.language)} (${number(c.now.low)}\u2026${number(c.now.high)})`,
          `${number(c.reference)} (${c.visits})`,
          { text: percent(c.change, true), strong: c.changed },
          `\u00b1${percent(c.reference_change, false)}`,
        ]
      }),
  })
}

/** Earlier visits in a line for the record: work order, day, odometer. */
export const visitsWords = ({ result: { history: it }, texts }: PageInput): string | null =>
  it === undefined || it.visits.length === 0
    ? (it?.says[0]?.text ?? null)
    : series(
        texts,
        it.visits
          .slice(-MOST_VISITS)
          .map(({ work_order, opened, odometer }) =>
            [
              say(texts, 'report.history.visit', { workOrder: work_order, date: dateWords(texts, opened) }),
              odometer && odometerWords(texts, odometer),
            ]
              .filter(Boolean)
              .join(', '),
          ),
      )

/** Newest visits named on the record page; the section shows all. */
const MOST_VISITS = 3

/** Cylinders that have changed against their own figures as they are now, by number. */
export function changedCylinders({ result: { history: it } }: PageInput): number[] {
  const changed = (it?.changes ?? []).filter((c) => c.changed)
  const now = changed.some((c) => c.stage === 'after') ? changed.filter((c) => c.stage === 'after') : changed
  return [...new Set(now.map(({ cylinder }) => cylinder))].sort((a, b) => a - b)
}
