import { settingWords } from '../../charts/words.ts'
import type { CaptureRecord } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { remarkWords } from '../../texts/remark-words.ts'
import type { TextKey } from '../../texts/messages.ts'
import { say, sayer, sayAgain } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import { table } from '../blocks/table.ts'
import { budgetBlocks } from './budget.ts'
import type { PageInput, Section } from './page-input.ts'
import { series, timeWords } from './words.ts'

/** How it was measured, from what ran; decision rule, uncertainty, quality of the data, and what stays unsaid. */
export function method(input: PageInput): Section {
  const { texts } = input
  const t = sayer(texts)
  const said = remarks(input)
  return {
    title: t('report.method.title'),
    level: 2,
    blocks: [
      heading(3, t('report.method.rule')),
      // Whole on one page: it is quoted as it stands.
      stack([
        paragraph(
          [
            t('report.method.rule-text'),
            ...(input.result.cylinders.some(({ running }) => running !== 'idle')
              ? [t('report.method.rule-off-idle')]
              : []),
            t('report.method.rule-risk'),
          ].join(' '),
        ),
      ]),
      paragraph(t('report.method.intro'), { keepWithNext: true }),
      list(
        input.result.method.map(({ says }) => says.text),
        { numbered: true },
      ),
      heading(3, t('report.method.uncertainty')),
      paragraph(t('report.method.uncertainty-text'), { gapPt: 2 }),
      ...budgetBlocks(input),
      heading(3, t('report.method.data')),
      paragraph(
        [t('report.method.marks'), ...(said.length === 0 ? [t('report.method.no-remarks')] : [])].join(' '),
        { gapPt: 2, keepWithNext: true },
      ),
      ...captureTable(input),
      ...(said.length === 0 ? [] : [list(said)]),
      heading(3, t('report.method.unsaid')),
      paragraph(unsaid(input).join(' '), { gapPt: 2 }),
    ],
  }
}

function captureTable({ result, texts }: PageInput): Block[] {
  const t = sayer(texts)
  const number = (value: number, decimals = 0) => formatNumber(value, decimals, texts.language)
  const left = (c: Pick<CaptureRecord, 'partial' | 'wasted'>) =>
    say(texts, 'report.method.left-out', { partial: c.partial, wasted: c.wasted })
  const sync = (c: Pick<CaptureRecord, 'sync'>) =>
    c.sync === null ? '\u2013' : say(texts, 'report.method.sync-words', c.sync)
  return [
    table({
      caption: t('report.method.data'),
      dense: true,
      size: 'fine',
      columns: [
        { title: say(texts, 'report.column.mark'), grow: 0 },
        { title: t('report.method.file'), grow: 1.6 },
        { title: t('report.method.setting'), grow: 1.2 },
        { title: t('report.method.taken'), grow: 0 },
        { title: t('report.method.rate'), grow: 0, align: 'right' },
        { title: t('report.method.length'), grow: 0, align: 'right' },
        { title: t('report.method.events'), grow: 1 },
        { title: t('report.method.sync'), grow: 1 },
      ],
      marks: result.captures.map(({ mark }) => mark),
      rows: result.captures.map((c) => [
        c.mark,
        c.file,
        settingWords(texts, { ...c, turn: 1 }),
        { text: timeWords(c.taken).slice(0, 10), note: timeWords(c.taken).slice(11) },
        number(c.sample_rate_hz / 1000, c.sample_rate_hz % 1000 === 0 ? 0 : 1),
        number(c.duration_s, 1),
        { text: number(c.events), note: left(c) },
        sync(c),
      ]),
    }),
  ]
}

/** Remarks made on the data before any judgement, warnings of the reading, and signs that could not be printed. */
function remarks({ result, texts, missingSigns }: PageInput): string[] {
  return [
    ...captureRemarks(result.captures, texts),
    ...result.problems.map(({ file, line, text }) => `${file}${line === null ? '' : `:${line}`}: ${text}`),
    ...(missingSigns.length === 0
      ? []
      : [say(texts, 'report.method.missing-signs', { codes: missingSigns.map(codePoint).join(', ') })]),
  ]
}

type Capture = PageInput['result']['captures'][number]
type Remark = Capture['remarks'][number] & { capture: Capture }

/** Arguments that tell one channel's remark from another's of the same kind. */
const OWN_ARGS: ReadonlySet<string> = new Set(['channel', 'count', 'of'])

/** Remarks capture by capture; one made of several channels alike is said once, with these and their counts behind it. */
export function captureRemarks(captures: readonly Capture[], texts: PageInput['texts']): string[] {
  const groups = new Map<string, Remark[]>()
  for (const remark of captures.flatMap((capture) => capture.remarks.map((each) => ({ ...each, capture })))) {
    const {
      code,
      says: { args, text },
      capture: { file },
    } = remark
    const group = togetherKey(remark)
      ? JSON.stringify([code, ...Object.entries(args).filter(([name]) => !OWN_ARGS.has(name))])
      : `${file}: ${text}`
    groups.set(group, [...(groups.get(group) ?? []), remark])
  }
  return [...groups.values()].map((alike) =>
    alike.length === 1 ? `${alike[0]!.capture.file}: ${alike[0]!.says.text}` : together(alike, texts),
  )
}

/** The sentence for several channels alike, where a remark has one. */
const togetherKey = ({ code }: Remark): TextKey | undefined => remarkWords(code)?.together

function together(alike: readonly Remark[], texts: PageInput['texts']): string {
  const { args } = alike[0]!.says
  const channels = alike.map(({ capture, says }) =>
    sayAgain(texts, {
      key: 'report.method.channel' satisfies TextKey,
      args: { capture: capture.mark, ...says.args },
    }),
  )
  return sayAgain(texts, {
    key: togetherKey(alike[0]!)!,
    args: { ...args, channels: series(texts, channels) },
  })
}

const codePoint = (sign: string) => `U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`

const USUAL_STEPS = [
  'spray',
  'trim',
  'gas',
  'fuel-pressure',
  'compression',
  'smoke',
  'vacuum',
  'code',
  'airflow',
] as const

/** Usual tests that the log does not hold. */
export const untestedSteps = ({ tests }: PageInput['result']): string[] =>
  USUAL_STEPS.filter((step) => !tests.some((test) => test.step === step))

/** What the figures cannot tell; what was not tested stands in the record. */
function unsaid({ result, texts }: PageInput): string[] {
  const t = sayer(texts)
  return [
    ...(result.engine.after ? [] : [t('report.method.no-after')]),
    t('report.method.cannot-where'),
    t('report.method.cannot-condition'),
    t('report.method.cannot-ring'),
    t('report.method.cannot-future'),
  ]
}
