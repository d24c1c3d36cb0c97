import { settingWords, verdictWord } from '../../charts/words.ts'
import type { CaptureRecord, CylinderRecord } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { chart } from '../blocks/chart.ts'
import { heading } from '../blocks/heading.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table, type Cell } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { verdictSign } from './verdict-sign.ts'
import { figureCell } from './words.ts'

/** Columns of the second table: keys of a cylinder's figures, in the order they are read off an event. */
const FIGURES = ['late_rise_pct', 'firing_kv', 'burn_ms', 'start_kv', 'mid_kv', 'early_slope_kv_per_ms', 'late_slope_kv_per_ms', 'coil_cycles'] as const

/** Verdict, reason and figures of every cylinder, stage by stage, and the charts of them. */
export function cylinders(input: PageInput): Section {
  const { result, texts, charts } = input
  const t = (key: string) => say(texts, `report.cylinders.${key}`)
  const stages = (['before', 'after'] as const).flatMap((stage) => stageBlocks(input, stage))
  return {
    title: t('title'), level: 2,
    blocks: [
      paragraph(t('intro')), paragraph(t('signs'), { color: 'quiet' }), ...stages,
      ...(result.cylinders.length === 0 ? [paragraph(t('none'))] : []),
      ...charts.filter((plan) => plan.place === 'figures' && stageOf(plan) === undefined).map((plan) => chart(plan)),
    ],
  }
}

function stageBlocks(input: PageInput, stage: 'before' | 'after'): Block[] {
  const { result, texts } = input
  const engine = result.engine[stage]
  if (!engine) return []
  return [
    heading(3, say(texts, `report.cylinders.${stage}`)),
    paragraph(engine.says.text, { gapPt: 2, keepWithNext: true }),
    ...captureGroups(result.captures, stage).flatMap((captures) => groupBlocks(input, captures)),
    ...input.charts.filter((plan) => plan.place === 'figures' && stageOf(plan) === stage).map((plan) => chart(plan)),
  ]
}

/** A chart's identity names its stage, where it shows one. */
const stageOf = ({ id }: { id: string }): string | undefined => id.match(/-(before|after)-/)?.[1]

/** Captures of one setting stand in one table; a setting is what charts/words calls it. */
function captureGroups(captures: readonly CaptureRecord[], stage: string): readonly (readonly CaptureRecord[])[] {
  const groups = new Map<string, CaptureRecord[]>()
  for (const capture of captures.filter((c) => c.stage === stage)) {
    const key = `${capture.condition} ${capture.engine}`
    groups.set(key, [...(groups.get(key) ?? []), capture])
  }
  return [...groups.values()]
}

function groupBlocks({ result, texts }: PageInput, captures: readonly CaptureRecord[]): Block[] {
  const files = captures.map(({ file }) => file)
  const rows = result.cylinders.filter((c) => files.includes(c.capture)).toSorted((a, b) => a.cylinder - b.cylinder)
  if (rows.length === 0) return []
  const { stage, condition, engine } = captures[0]!
  const setting = say(texts, 'report.cylinders.setting', { setting: settingWords(texts, { stage, condition, engine, turn: 1 }), files: files.join(', ') })
  return [
    paragraph(setting, { color: 'quiet', keepWithNext: true }),
    verdictTable(texts, rows, setting),
    figureTable(texts, rows, setting),
  ]
}

type Texts = PageInput['texts']
const column = (texts: Texts, key: string) => say(texts, `report.column.${key}`)

function verdictTable(texts: Texts, rows: readonly CylinderRecord[], caption: string): Block {
  return table({
    caption,
    columns: [
      { title: column(texts, 'cylinder'), grow: 0 }, { title: column(texts, 'mark'), grow: 0 }, { title: column(texts, 'verdict'), grow: 0 },
      { title: column(texts, 'events'), grow: 0, align: 'right' }, { title: column(texts, 'reason'), grow: 1 },
    ],
    rows: rows.map((row): (Cell | string)[] => [
      String(row.cylinder), { text: row.mark, quiet: true },
      { text: `${verdictSign(row.verdict)} ${verdictWord(texts, row.verdict)}`, strong: row.verdict !== 'level' },
      eventCell(texts, row),
      row.reason.text,
    ]),
  })
}

/** Events used, and below them what was left out or missed. */
function eventCell(texts: Texts, row: CylinderRecord): Cell {
  const number = (value: number) => formatNumber(value, 0, texts.language)
  return row.misfires === 0
    ? { text: number(row.events) }
    : { text: number(row.events), note: say(texts, 'report.cylinders.misfires', { count: row.misfires }) }
}

function figureTable(texts: Texts, rows: readonly CylinderRecord[], caption: string): Block {
  return table({
    caption,
    columns: [
      { title: column(texts, 'cylinder'), grow: 0 },
      ...FIGURES.map((key) => ({ title: column(texts, key.replaceAll('_', '-')), grow: 1, align: 'right' as const })),
    ],
    rows: rows.map((row) => [String(row.cylinder), ...FIGURES.map((key) => figureCell(texts, row.figures[key]))]),
  })
}
