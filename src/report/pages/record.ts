import { settingWords, verdictWord } from '../../charts/words.ts'
import type { CylinderRecord, Result } from '../../records/result.ts'
import type { Job } from '../../job/schema.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import type { WordKey } from '../../texts/messages.ts'
import { ORDER } from '../../verdicts/kinds/index.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { contents } from '../blocks/contents.ts'
import { heading } from '../blocks/heading.ts'
import { keyValues } from '../blocks/key-values.ts'
import { stack } from '../blocks/stack.ts'
import { table, type Cell } from '../blocks/table.ts'
import { claimLacks } from './claim-lacks.ts'
import { decidedTable } from './decided.ts'
import type { PageInput, Section } from './page-input.ts'
import { causesFound, codesWords, heldAgainst, repairsWords } from './record-words.ts'
import { visitsWords } from './history.ts'
import { overruled } from './review.ts'
import { verdictSign } from './verdict-sign.ts'
import {
  conditionWord,
  dateWords,
  figureLine,
  odometerWords,
  pair,
  quantity,
  series,
  stated,
  stepWord,
  timeWords,
  vehicleWords,
} from './words.ts'

type Texts = PageInput['texts']
type Size = 'fine' | 'small'

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
    tighter: body(input, entries, 'fine'),
  }
}

function body(
  input: PageInput,
  entries: readonly { title: string; anchor: string }[],
  size: Size,
): readonly Block[] {
  const { result, texts } = input
  const t = sayer(texts)
  const fields = (of: ReturnType<typeof stated>, nameShare = 0.36) =>
    keyValues(of, { size, dense: true, nameShare })
  const column = (title: WordKey, of: ReturnType<typeof stated>) => stack([heading(3, t(title)), fields(of)])
  return [
    fields(stated(texts, claimFields(input)), 0.17),
    ...decidedTable(input, size),
    beside([column('report.ccc.vehicle', vehicleFields(result, texts)), cylinderTable(input, size)], {
      shares: result.engine.after ? [0.4, 0.6] : [0.5, 0.5],
    }),
    beside([
      column('report.ccc.job', jobFields(input)),
      column('report.record.recorded', recordingFields(input)),
    ]),
    contents(entries, { columns: 3, size, pageWords: (page) => t('report.record.page', { page }) }),
  ]
}

const STATUS = {
  fault: 'report.status.fault',
  suspected: 'report.status.suspected',
  'not known': 'report.status.not-known',
  'in order': 'report.status.in-order',
} as const satisfies Record<Result['conclusion']['now']['class'], WordKey>
type Field = readonly [name: string, value: string | null | undefined]

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
    [t('report.record.status'), `${t(STATUS[conclusion.now.class])}: ${found(conclusion.now.says)}`],
    [t('report.ccc.complaint'), job.complaint],
    [t('report.ccc.as-found'), found(conclusion.as_found.says)],
    [t('report.record.cause-stated'), heldAgainst(input, 'cause')],
    [t('report.record.cause-found'), causesFound(input)],
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

/** The next step with its minutes and outcomes, or that none is on record. */
function nextWords({ result }: PageInput): string {
  const { next_test: next, conclusion } = result
  if (next === null) return conclusion.page_one.next.map(({ text }) => text).join(' ')
  return [next.says.text, ...next.outcomes.map(({ says }) => says.text)].join(' ')
}

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

const VIN_CHECKS: Readonly<Record<Result['job']['vehicle']['vin_check'], WordKey>> = {
  passes: 'report.vin-check.passes',
  fails: 'report.vin-check.fails',
  'not given': 'report.vin-check.not-given',
  'not a VIN': 'report.vin-check.not-a-vin',
}
const IGNITIONS: Readonly<Record<Job['engine']['ignition'], WordKey>> = {
  distributor: 'report.ignition.distributor',
  'coil-per-cylinder': 'report.ignition.coil-per-cylinder',
  'wasted-spark': 'report.ignition.wasted-spark',
}

function vehicleFields({ job: { vehicle, engine } }: Result, texts: Texts) {
  const t = sayer(texts)
  const litres =
    engine.displacement_l === null ? '' : quantity(texts, engine.displacement_l, { unit: 'l', decimals: 1 })
  const words = t('report.ccc.engine-words', {
    cylinders: engine.cylinders,
    strokes: engine.strokes,
    fuel: engine.fuel,
  })
  return stated(texts, [
    [t('report.ccc.make'), vehicleWords(vehicle)],
    [t('report.ccc.vin'), vehicle.vin],
    [t('report.ccc.vin-check'), say(texts, VIN_CHECKS[vehicle.vin_check])],
    [t('report.ccc.plate'), vehicle.plate],
    [t('report.ccc.unit'), vehicle.unit_number],
    [t('report.ccc.odometer'), vehicle.odometer && odometerWords(texts, vehicle.odometer)],
    [t('report.ccc.engine'), [words, litres].filter(Boolean).join(', ')],
    [t('report.ccc.ignition'), wordOf(texts, IGNITIONS, engine.ignition)],
    [t('report.ccc.firing-order'), engine.firing_order.join('-')],
    ...Object.entries(engine.banks ?? {}).map(
      ([bank, cylinders]) => [say(texts, 'report.ccc.bank', { bank }), cylinders.join(', ')] as const,
    ),
  ])
}

function jobFields({ result, texts }: PageInput) {
  const t = sayer(texts)
  const { job, program } = result
  const { technician, customer } = job
  const repairs = result.tests.filter(({ step }) => step === 'repair').map(({ at }) => dateWords(texts, at))
  return stated(texts, [
    [say(texts, 'report.work-order'), job.work_order],
    [t('report.ccc.opened'), dateWords(texts, job.opened)],
    [t('report.record.worked'), [...new Set(repairs)].join(', ')],
    [t('report.ccc.closed'), job.closed && dateWords(texts, job.closed)],
    [t('report.ccc.shop'), job.shop.name],
    [t('report.ccc.technician'), technician.name],
    [t('report.ccc.certificate'), technician.certificate],
    [t('report.ccc.customer'), customer?.name],
    [t('report.ccc.contact'), customer?.contact],
    [t('report.ccc.reference'), customer?.reference],
    [
      t('report.record.signed'),
      program.certificate
        ? t('report.record.signed-by', {
            name: program.certificate.name,
            date: dateWords(texts, program.certificate.signed_at),
          })
        : t(program.signing_key === undefined ? 'report.record.unsigned' : 'report.record.sealed'),
    ],
    [t('report.record.untouched'), t('report.record.untouched-words')],
  ])
}

/** Captures named one by one; further ones stand in the annex. */
const MOST_NAMED = 4

/** Under which conditions, with what, and by which rule. */
function recordingFields({ result, texts }: PageInput) {
  const t = sayer(texts)
  const { instrument } = result.job
  const { calibration } = instrument
  const limit = result.limits.find(({ key }) => key === 'lateRisePct')
  const named = result.captures.slice(0, MOST_NAMED).map((c): Field => {
    const what = `${settingWords(texts, { ...c, turn: 1 })}; ${timeWords(c.taken)}; ${formatNumber(c.duration_s, 1, texts.language)}\u00a0s`
    return [c.mark, what]
  })
  const figure = (value: number, how: { unit: string; isStated: boolean }) =>
    say(texts, how.isStated ? 'report.method.stated' : 'report.method.default', {
      figure: quantity(texts, value, { unit: how.unit, decimals: 0 }),
    })
  const certified =
    calibration &&
    series(texts, [
      calibration.date ? dateWords(texts, calibration.date) : t('report.not-given'),
      ...(calibration.due
        ? [pair(texts, t('report.method.calibration-due'), dateWords(texts, calibration.due))]
        : []),
      ...(calibration.certificate
        ? [pair(texts, t('report.method.calibration-certificate'), calibration.certificate)]
        : []),
    ])
  return stated(texts, [
    ...named,
    ...(result.captures.length > MOST_NAMED
      ? [['', t('report.record.more', { count: result.captures.length - MOST_NAMED })] as const]
      : []),
    [t('report.method.instrument-words'), instrument.description],
    [t('report.method.calibrated'), certified],
    [
      t('report.method.voltage'),
      figure(instrument.voltage_uncertainty_percent, {
        unit: '%',
        isStated: instrument.voltage_uncertainty_stated,
      }),
    ],
    [
      t('report.method.time'),
      figure(instrument.time_uncertainty_ppm, { unit: 'ppm', isStated: instrument.time_uncertainty_stated }),
    ],
    [t('report.record.rule'), limit && t('report.record.rule-words', { limitPct: limit.value })],
  ])
}
