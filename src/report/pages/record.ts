import { STATUS_WORDS } from '../../conclusion/status-words.ts'
import { verdictWord } from '../../charts/words.ts'
import type { CylinderRecord, Result } from '../../records/result.ts'
import type { WordKey } from '../../texts/messages.ts'
import { ORDER } from '../../verdicts/kinds/index.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { contents } from '../blocks/contents.ts'
import { heading } from '../blocks/heading.ts'
import { keyValues } from '../blocks/key-values.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import { table, type Cell } from '../blocks/table.ts'
import { claimLacks } from './claim-lacks.ts'
import { decidedTable } from './decided.ts'
import type { PageInput, Section } from './page-input.ts'
import { jobFields, recordingFields, vehicleFields, type Field } from './record-columns.ts'
import {
  againstWords,
  causesFound,
  codesWords,
  heldAgainst,
  nextWords,
  repairsWords,
  speaksWords,
} from './record-words.ts'
import { visitsWords } from './history.ts'
import { overruled } from './review.ts'
import { verdictSign } from './verdict-sign.ts'
import { conditionWord, figureLine, given, pair, series, stepWord } from './words.ts'

type Texts = PageInput['texts']
type Size = 'fine' | 'small'
/** Deciding figures shown, and where the page would be more than one. */
const [MOST_FIGURES, FEWER_FIGURES] = [7, 4]

/**
 * Page two, the record: what a clerk, a fleet manager and the next technician ask for, each answered or said not to be
 * on record, with what the verdict depends on, and where the rest of the report stands.
 */
export function record(input: PageInput, entries: readonly { title: string; anchor: string }[]): Section {
  return {
    title: say(input.texts, 'report.record.title'),
    level: 2,
    newPage: true,
    blocks: body(input, entries, 'small'),
    tighter: [body(input, entries, 'fine'), body(input, entries, 'fine', FEWER_FIGURES)],
  }
}

function body(
  input: PageInput,
  entries: readonly { title: string; anchor: string }[],
  size: Size,
  mostFigures = MOST_FIGURES,
): readonly Block[] {
  const { result, texts } = input
  const t = sayer(texts)
  const fields = (of: readonly Field[], nameShare = 0.36) =>
    keyValues(onRecord(texts, of), { size, dense: true, nameShare })
  const column = (title: WordKey, of: readonly Field[]) => stack([heading(3, t(title)), fields(of)])
  return [
    fields(claimFields(input), 0.17),
    ...decidedTable(input, size, mostFigures),
    ...marksExplained(input, size),
    beside([column('report.ccc.vehicle', vehicleFields(input)), cylinderTable(input, size)], {
      shares: result.engine.after ? [0.4, 0.6] : [0.5, 0.5],
    }),
    beside([
      column('report.ccc.job', jobFields(input)),
      column('report.record.recorded', recordingFields(input)),
    ]),
    contents(entries, { columns: 3, size, pageWords: (page) => t('report.record.page', { page }) }),
  ]
}

/** Fields with a value; the names of those without stand in a row of their own. */
function onRecord(texts: Texts, fields: readonly Field[]): { name: string; value: string }[] {
  const absent = fields.flatMap(([name, value]) => (value ? [] : [name]))
  return given([...fields, [say(texts, 'report.record.absent'), series(texts, absent)]])
}

/** What the marks of the page lead to, by marks that stand on it. */
function marksExplained({ result, texts }: PageInput, size: Size): Block[] {
  const [capture, cylinder, test] = [result.captures[0], result.cylinders[0], result.tests[0]]
  const says = [
    ...(capture ? [say(texts, 'report.record.mark-capture', { mark: capture.mark })] : []),
    ...(cylinder
      ? [say(texts, 'report.record.mark-cylinder', { mark: cylinder.mark, cylinder: cylinder.cylinder })]
      : []),
    ...(test ? [say(texts, 'report.record.mark-test', { mark: test.mark })] : []),
  ]
  return says.length === 0
    ? []
    : [
        paragraph(say(texts, 'report.record.marks', { marks: series(texts, says) }), {
          size,
          color: 'quiet',
          gapPt: 2,
        }),
      ]
}

/** State, complaint, cause as stated and as found, correction, proof, codes, next step, and what a claim still lacks. */
function claimFields(input: PageInput): Field[] {
  const { result, texts } = input
  const t = sayer(texts)
  const { job, conclusion } = result
  const found = (says: readonly { text: string }[]) =>
    series(
      texts,
      says.map(({ text }) => text),
    )
  return [
    [t('report.record.status'), `${t(STATUS_WORDS[conclusion.now.class])}: ${found(conclusion.now.says)}`],
    [t('report.ccc.complaint'), job.complaint],
    [t('report.ccc.as-found'), found(conclusion.as_found.says)],
    [t('report.record.cause-stated'), heldAgainst(input, 'cause')],
    [t('report.record.cause-found'), causesFound(input)],
    [t('report.causes.for'), speaksWords(input)],
    [t('report.causes.against'), againstWords(input)],
    [t('report.ccc.correction'), heldAgainst(input, 'correction')],
    [t('report.ccc.work'), repairsWords(input)],
    [
      t('report.ccc.proof'),
      [conclusion.repair.reason, ...conclusion.repair.remarks].map(({ text }) => text).join(' '),
    ],
    [t('report.record.codes'), codesWords(input)],
    [t('report.record.in-order'), inOrderWords(input)],
    [t('report.record.next'), nextWords(input)],
    ...overruled(input).map((words): Field => [t('report.record.review'), words]),
    [
      t('report.record.lacks'),
      claimLacks(result)
        .map((key) => t(key))
        .join('; ') || t('report.lacks.nothing'),
    ],
    [t('report.record.earlier'), visitsWords(input)],
    // No job records it; a fleet asks for it.
    [t('report.record.parts'), null],
  ]
}

/** Kinds whose readings were in order as found, so that who takes over need not try them again. */
function inOrderWords({ result, texts }: PageInput): string {
  const { findings } = result.conclusion
  const tests = findings
    .filter((f) => f.state === 'as found' && f.order === 'in order')
    .flatMap(({ marks }) => marks.filter((mark) => mark.startsWith('T')))
  const odd = new Set(findings.filter((f) => f.order !== 'in order').flatMap(({ marks }) => marks))
  const marks = [...new Set(tests)].filter((mark) => !odd.has(mark))
  return series(
    texts,
    marks.flatMap((mark) => {
      const test = result.tests.find((one) => one.mark === mark)
      return test ? [testName(texts, test)] : []
    }),
  )
}

const testName = (texts: Texts, { step, place, condition, mark }: Result['tests'][number]): string =>
  `${pair(texts, stepWord(texts, step), place)}${place === null && condition !== null ? `, ${conditionWord(texts, condition)}` : ''} (${mark})`

/** Verdict and deciding figure of every cylinder, as found and after the repair. */
function cylinderTable({ result, texts }: PageInput, size: Size): Block {
  const t = sayer(texts)
  const stages = result.engine.after ? (['before', 'after'] as const) : (['before'] as const)
  const numbers = [...new Set(result.cylinders.map(({ cylinder }) => cylinder))].toSorted((a, b) => a - b)
  const cells = (stage: 'before' | 'after', cylinder: number): Cell[] => {
    const row = standingRecord(result, stage, cylinder)
    if (!row) return [{ text: '\u2013' }, { text: '\u2013' }]
    return [
      {
        text: `${verdictSign(row.verdict)}\u00a0${verdictWord(texts, row.verdict)}`,
        strong: row.verdict !== 'level',
      },
      figureLine(texts, row.figures['late_rise_pct']),
    ]
  }
  const rise = say(texts, 'report.column.late-rise-pct')
  const heads = { before: t('report.ccc.as-found'), after: t('report.ccc.after') }
  return stack([
    heading(3, t('report.record.cylinders')),
    table({
      caption: t('report.record.cylinders'),
      size,
      dense: true,
      columns: [
        { title: say(texts, 'report.column.cylinder'), grow: 0 },
        ...stages.flatMap((stage) => [
          { title: heads[stage], grow: 1 },
          { title: rise, grow: 1 },
        ]),
      ],
      rows: numbers.map((cylinder) => [
        String(cylinder),
        ...stages.flatMap((stage) => cells(stage, cylinder)),
      ]),
    }),
  ])
}

/** The record whose verdict the repair check took, else the first that could be judged. */
function standingRecord(
  { cylinders, repair }: Result,
  stage: 'before' | 'after',
  cylinder: number,
): CylinderRecord | undefined {
  const all = cylinders.filter((c) => c.stage === stage && c.cylinder === cylinder)
  const checked = repair.cylinders.find((c) => c.cylinder === cylinder)
  return (
    all.find(({ verdict }) => verdict === checked?.[stage]) ??
    all.find(({ verdict }) => ORDER[verdict] === 'out of order') ??
    all.find(({ verdict }) => verdict !== 'not judged') ??
    all[0]
  )
}
