import type { ChartPlan } from '../../charts/chart-plan.ts'
import { say, sayer } from '../../texts/say.ts'
import { REPAIR_WORDS } from '../../verdicts/verdict-words.ts'
import { chart } from '../blocks/chart.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { chartBlocks } from './chart-blocks.ts'
import type { PageInput, Section } from './page-input.ts'

/** The evidence at a glance: before beside after where both were recorded, the trace that decided, and the hunt for a leak. */
export function recordings(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  const { repair, conclusion, leak_hunt: hunt } = result
  const worked = conclusion.repair.why !== 'none'
  const shown = evidenceCharts(input)
  const hunted = [
    ...(hunt?.next ? [hunt.next.says] : []),
    ...(hunt?.left_capped ?? []).map(({ says }) => says),
  ]
  return {
    title: t(result.engine.after ? 'report.before-after.title' : 'report.recordings.title'),
    level: 2,
    newPage: true,
    blocks: [
      ...(worked
        ? [
            paragraph(
              say(texts, 'report.before-after.verdict', {
                verdict: say(texts, REPAIR_WORDS[repair.verdict]),
              }),
              { face: 'semibold', keepWithNext: true },
            ),
            paragraph(repair.says.text, { gapPt: 2 }),
            ...repair.conditions.map(({ text }) => paragraph(text)),
          ]
        : []),
      ...(result.cylinders.length === 0 ? [paragraph(t('report.cylinders.none'))] : []),
      ...chartBlocks(shown.filter(({ place }) => place !== 'tests')),
      ...shown.filter(({ place }) => place === 'tests').map((plan) => chart(plan)),
      ...hunted.map(({ text }) => paragraph(text, { keepWithNext: true })),
      ...input.charts.filter(({ id }) => id === 'leak-hunt').map((plan) => chart(plan)),
    ],
  }
}

type Finding = PageInput['result']['conclusion']['findings'][number]

/** Charts of one comparison. */
const PER_PAIR = 2

/** Charts that stand with the evidence; every other one stands in the annex. */
export function evidenceCharts({ charts, result }: PageInput): readonly ChartPlan[] {
  const pairs = charts.filter(({ place }) => place === 'before-after').slice(0, PER_PAIR)
  const first = charts.find(({ id }) => id.startsWith('spark-lines-'))?.id.replace('spark-lines-', '')
  const alone = charts.filter(
    (plan) =>
      plan.place === 'figures' &&
      first !== undefined &&
      FIRST.has(plan.id.replace(`-${first}`, '')) &&
      bears(plan, result),
  )
  const trace = decidingTrace(charts, result)
  return [...(pairs.length > 0 ? pairs : alone), ...(trace ? [trace] : [])]
}

const FIRST: ReadonlySet<string> = new Set(['spark-lines', 'late-rise', 'firing-voltage'])

/** Kinds of chart, and what has to be found for one of them to show more than the record's figures do. */
const KINDS: readonly { starts: string; shows: (finding: Finding) => boolean }[] = [
  // Where a verdict is clear its figure says it; at a limit the interval against it has to be seen.
  { starts: 'late-rise-', shows: ({ kind, order }) => kind === 'mixture' && order === 'unsure' },
  {
    starts: 'firing-voltage-',
    shows: ({ kind }) => kind === 'firing-voltage' || kind === 'circuit' || kind === 'misfire',
  },
  { starts: 'speed-before-', shows: ({ kind }) => kind === 'idle-speed' },
  { starts: 'speed-after-', shows: ({ kind }) => kind === 'idle-speed' },
  { starts: 'causes', shows: () => false },
]

/** Whether a chart shows something of what was found that the figures by themselves do not; it stands as a file in any case. */
export function bears({ id }: Pick<ChartPlan, 'id'>, { conclusion }: PageInput['result']): boolean {
  const kind = KINDS.find(({ starts }) => id.startsWith(starts))
  return (
    kind === undefined ||
    conclusion.findings.some((finding) => finding.order !== 'in order' && kind.shows(finding))
  )
}

/** The trace with the spray that bears the first fault, else one with a response, else the first. */
function decidingTrace(
  charts: readonly ChartPlan[],
  { conclusion, tests }: PageInput['result'],
): ChartPlan | undefined {
  const traces = charts.filter(({ marks }) => marks !== undefined)
  const bearing = new Set(
    conclusion.findings
      .filter((f) => f.order === 'out of order' && f.kind === 'leak')
      .flatMap(({ marks }) => marks),
  )
  const responses = new Set(tests.filter(({ finding }) => finding === 'response').map(({ mark }) => mark))
  const holds = (wanted: ReadonlySet<string>) =>
    traces.find(({ marks }) => marks!.some((mark) => wanted.has(mark)))
  return holds(bearing) ?? holds(responses) ?? traces[0]
}
