import { settingWords, verdictWord } from '../../charts/words.ts'
import { CONDITION_WORDS } from '../../job/job-words.ts'
import type { CaptureRecord, CylinderRecord } from '../../records/result.ts'
import type { Figure, KeyNeeding } from '../../texts/messages.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import type { ChartPlan } from '../../charts/chart-plan.ts'
import { chartBlocks } from './chart-blocks.ts'
import type { PageInput, Section } from './page-input.ts'
import { ORDER, VERDICTS } from '../../verdicts/kinds/index.ts'
import { bears, evidenceCharts } from './recordings.ts'
import { shifts } from './shifts.ts'
import { verdictSign } from './verdict-sign.ts'
import { figureCell, series } from './words.ts'

/** Columns of the table: a cylinder's figures, in the order they are read off an event, each with its title. */
const COLUMNS = {
  late_rise_pct: 'report.column.late-rise-pct',
  firing_kv: 'report.column.firing-kv',
  burn_ms: 'report.column.burn-ms',
  start_kv: 'report.column.start-kv',
  mid_kv: 'report.column.mid-kv',
  early_slope_kv_per_ms: 'report.column.early-slope-kv-per-ms',
  late_slope_kv_per_ms: 'report.column.late-slope-kv-per-ms',
  coil_cycles: 'report.column.coil-cycles',
} as const
const FIGURES = Object.keys(COLUMNS) as (keyof typeof COLUMNS)[]
const STAGES = { before: 'report.cylinders.before', after: 'report.cylinders.after' } as const

/** Verdict, reason and figures of every cylinder, stage by stage, with the charts of them that do not stand with the evidence, and what the repair moved. */
export function cylinders(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  const { printed, files } = annexCharts(input)
  const stages = (['before', 'after'] as const).flatMap((stage) => stageBlocks(input, stage))
  return {
    title: t('report.cylinders.title'),
    level: 2,
    blocks: [
      ...stages,
      paragraph(
        result.cylinders.length === 0
          ? t('report.cylinders.none')
          : [t('report.cylinders.intro'), t('report.cylinders.signs', { signs: signsWords(texts) })].join(
              ' ',
            ),
        { color: 'quiet' },
      ),
      ...shifts(input),
      ...chartBlocks(printed.filter((plan) => stageOf(plan) === undefined || !isLines(plan))),
      ...(files.length === 0
        ? []
        : [paragraph(t('report.cylinders.more-charts', { files: files.map(({ id }) => id).join(', ') }))]),
    ],
  }
}

/** Every sign once, with what it means. */
const signsWords = (texts: Texts): string =>
  series(
    texts,
    [...new Map(VERDICTS.map((v) => [v.sign, v.signWords]))].map(
      ([sign, words]) => `${sign} ${say(texts, words)}`,
    ),
  )

function stageBlocks(input: PageInput, stage: 'before' | 'after'): Block[] {
  const { result, texts } = input
  const engine = result.engine[stage]
  if (!engine) return []
  return [
    heading(3, say(texts, STAGES[stage])),
    ...captureGroups(result.captures, stage).flatMap((captures, i) =>
      groupBlocks(input, captures, i === 0 ? engine.says.text : ''),
    ),
    ...chartBlocks(annexCharts(input).printed.filter((plan) => stageOf(plan) === stage && isLines(plan))),
  ]
}

/** Charts that do not stand with the evidence and bear on something found out of order; the others are files only. */
function annexCharts(input: PageInput): { printed: ChartPlan[]; files: ChartPlan[] } {
  const shown = new Set(evidenceCharts(input).map(({ id }) => id))
  const left = input.charts.filter(
    ({ id, place }) => !shown.has(id) && !ELSEWHERE.has(id) && place !== 'customer',
  )
  const compared = [...shown].some((id) => id.startsWith('before-after-lines'))
  const said = (plan: ChartPlan): boolean => compared && COMPARED.some((starts) => plan.id.startsWith(starts))
  const answered = (plan: ChartPlan): boolean =>
    plan.marks === undefined ||
    input.result.tests.some(({ mark, finding }) => finding === 'response' && plan.marks!.includes(mark))
  const printed = left.filter((plan) => !said(plan) && bears(plan, input.result) && answered(plan))
  return { printed, files: left.filter((plan) => !printed.includes(plan)) }
}

const ELSEWHERE: ReadonlySet<string> = new Set(['leak-hunt'])
/** Charts of one stage that a comparison with the evidence says already. */
const COMPARED = ['spark-lines-', 'late-rise-', 'firing-voltage-', 'speed-after-'] as const
const isLines = ({ id }: { id: string }): boolean => id.startsWith('spark-lines-')

/** A chart's identity names its stage, where it shows one. */
const stageOf = ({ id }: { id: string }): string | undefined => id.match(/-(before|after)-/)?.[1]

/** Captures of one setting stand in one table; a setting is what charts/words calls it. */
function captureGroups(
  captures: readonly CaptureRecord[],
  stage: string,
): readonly (readonly CaptureRecord[])[] {
  const groups = new Map<string, CaptureRecord[]>()
  for (const capture of captures.filter((c) => c.stage === stage)) {
    const key = `${capture.condition} ${capture.engine}`
    groups.set(key, [...(groups.get(key) ?? []), capture])
  }
  return [...groups.values()]
}

/** @param says  what is said of the whole stage, before its first table */
function groupBlocks(
  { result, texts }: PageInput,
  captures: readonly CaptureRecord[],
  says: string,
): Block[] {
  const files = captures.map(({ file }) => file)
  const pools = (result.pools ?? []).filter((pool) => pool.files.some((file) => files.includes(file)))
  const names = [...files, ...pools.map((pool) => pool.capture)]
  const rows = result.cylinders
    .filter((c) => names.includes(c.capture))
    .toSorted((a, b) => a.cylinder - b.cylinder)
  if (rows.length === 0) return says === '' ? [] : [paragraph(says, { gapPt: 2 })]
  const { stage, condition, engine } = captures[0]!
  const setting = say(texts, 'report.cylinders.setting', {
    setting: settingWords(texts, { stage, condition, engine, turn: 1 }),
    files: files.join(', '),
  })
  return [
    paragraph([says, setting].filter(Boolean).join(' '), { keepWithNext: true, gapPt: 2 }),
    ...pools.map(({ mark, files: together }) =>
      paragraph(say(texts, 'report.cylinders.pool', { mark, files: together.join(', ') }), {
        color: 'quiet',
        keepWithNext: true,
        gapPt: 2,
      }),
    ),
    figureTable(texts, rows, setting),
    ...extrapolated(texts, rows),
    ...reasons({ result, texts }, rows).map((why) => paragraph(why, { gapPt: 4 })),
    ...standApart(texts, rows).map((what) => paragraph(what, { gapPt: 4 })),
  ]
}

type Texts = PageInput['texts']

/** Below the table, where a firing voltage in it lies beyond the highest samples: how far these reach. */
function extrapolated(texts: Texts, rows: readonly CylinderRecord[]): Block[] {
  const reached = rows.flatMap(({ figures: { firing_kv: f } }) =>
    f && 'value' in f && f.extrapolated_from !== undefined ? [f.extrapolated_from] : [],
  )
  if (reached.length === 0) return []
  const fromKv = Math.min(...reached)
  return [paragraph(say(texts, 'report.cylinders.extrapolated', { fromKv }), { color: 'quiet', gapPt: 2 })]
}

/** Verdict and figures of every cylinder: the interval below its value, the mark of the evidence below the cylinder. Where no pickup's ratio is stated there is no column of kV. */
function figureTable(texts: Texts, rows: readonly CylinderRecord[], caption: string): Block {
  const shown = FIGURES.filter((key) => rows.some(({ figures }) => !isWithoutRatio(figures[key])))
  return table({
    caption,
    dense: true,
    size: 'fine',
    columns: [
      { title: say(texts, 'report.column.cylinder'), grow: 0 },
      { title: say(texts, 'report.column.verdict'), grow: 1 },
      ...shown.map((key) => ({ title: say(texts, COLUMNS[key]), grow: 1, align: 'right' as const })),
    ],
    marks: rows.map(({ mark }) => mark),
    rows: rows.map((row): Cell[] => [
      { text: String(row.cylinder), strong: true, note: row.mark },
      verdictCell(texts, row),
      ...shown.map((key) => figureCell(texts, row.figures[key])),
    ]),
  })
}

/** A column of kV has no place where the pickup's ratio is not stated. */
const isWithoutRatio = (figure: CylinderRecord['figures'][string] | undefined): boolean =>
  figure !== undefined && 'absent' in figure && figure.absent === 'ratio-unknown'

/** The verdict, and below it on how many events it rests and how many were missed. */
function verdictCell(texts: Texts, row: CylinderRecord): Cell {
  const missed = row.misfires === 0 ? [] : [say(texts, 'report.cylinders.misfires', { count: row.misfires })]
  return {
    text: `${verdictSign(row.verdict)}\u00a0${verdictWord(texts, row.verdict)}`,
    strong: ORDER[row.verdict] !== 'in order',
    note: [
      say(texts, 'report.cylinders.events', { count: row.events }),
      ...missed,
      ...(row.went_out ? [say(texts, 'report.cylinders.went-out', { count: row.went_out })] : []),
      ...offIdleWords(texts, row),
    ].join(', '),
  }
}

const OFF_IDLE = { fellows: 'report.cylinders.of-fellows', limit: 'report.cylinders.of-limit' } as const

/** Of a verdict off a warm idle: the condition, and what it rests on. */
function offIdleWords(texts: Texts, { running, basis, condition }: CylinderRecord): string[] {
  if (running === 'idle' || basis === null || condition === undefined) return []
  const said = wordOf(texts, CONDITION_WORDS, condition)
  const under = running === 'cold' ? say(texts, 'condition.cold', { condition: said }) : said
  return [say(texts, OFF_IDLE[basis], { condition: under })]
}

/** Rules that look at the late rise alone: the table above gives the figure, so their reason is said once for all its cylinders. */
const BY_LATE_RISE: Readonly<Record<string, KeyNeeding<{ limitPct: Figure }>>> = {
  level: 'report.cylinders.why.level',
  lean: 'report.cylinders.why.lean',
  falling: 'report.cylinders.why.falling',
  rich: 'report.cylinders.why.rich',
  'low-compression': 'report.cylinders.why.low-compression',
}

/** Why each verdict was given: once for cylinders whose late rise decided alike, else with each cylinder's own figures. */
function reasons(
  { result, texts }: Pick<PageInput, 'result' | 'texts'>,
  rows: readonly CylinderRecord[],
): string[] {
  const alike = new Map<string, CylinderRecord[]>()
  for (const row of rows) {
    const key = BY_LATE_RISE[row.rule] === undefined ? row.mark : row.rule
    alike.set(key, [...(alike.get(key) ?? []), row])
  }
  const limit = result.limits.find(({ key }) => key === 'lateRisePct')!.value
  return [...alike.values()].map((same) => {
    const { verdict, reason, rule } = same[0]!
    const shared = BY_LATE_RISE[rule]
    const why = shared === undefined ? reason.text : say(texts, shared, { limitPct: limit })
    return say(texts, 'report.cylinders.why', {
      marks: same.map(({ mark }) => mark).join(', '),
      verdict: `${verdictSign(verdict)} ${verdictWord(texts, verdict)}`,
      why,
    })
  })
}

/** What stands apart beside the mixture, cylinder by cylinder. */
const standApart = (texts: Texts, rows: readonly CylinderRecord[]): string[] =>
  rows
    .filter(({ apart }) => apart.length > 0)
    .map(({ mark, apart }) =>
      say(texts, 'report.cylinders.apart', { mark, what: apart.map(({ says }) => says.text).join(' ') }),
    )
