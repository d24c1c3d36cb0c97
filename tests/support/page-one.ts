import { sentence } from '../../src/texts/messages.ts'
import { conclude, groundsOf } from '../../src/conclusion/conclude.ts'
import type { Conclusion } from '../../src/conclusion/conclusion.ts'
import type { Seen, SeenCylinder } from '../../src/conclusion/seen.ts'
import { workOf } from '../../src/conclusion/work.ts'
import { loadCauses } from '../../src/limits/load-causes.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import type { CylinderSummaries } from '../../src/metrics/figures.ts'
import { FIGURE_UNITS } from '../../src/metrics/figures.ts'
import type { WithSpeed } from '../../src/metrics/with-speed.ts'
import { conclusionRecord, summaryOf } from '../../src/records/parts/conclusion-record.ts'
import type { Result } from '../../src/records/result.ts'
import { composeSections } from '../../src/report/compose-sections.ts'
import { customerPage } from '../../src/report/pages/customer.ts'
import { openTypeface } from '../../src/report/text/typeface.ts'
import { readTests } from '../../src/test-log/read-tests.ts'
import type { Texts } from '../../src/texts/messages.ts'
import { absent } from '../../src/units/measured.ts'
import { causesInForce } from '../../src/verdicts/causes/override.ts'
import { weighCauses } from '../../src/verdicts/causes/weigh-causes.ts'
import type { CylinderRepair } from '../../src/verdicts/repair.ts'
import { verdictNames, type RepairVerdict, type VerdictName } from '../../src/verdicts/verdict-names.ts'
import { openPdf, pageText, wordsOf } from './read-pdf.ts'
import { sampleJob } from './sample-result.ts'
import { logJob, logRows } from './test-log.ts'

/** A job to be told on page one: the verdict of each cylinder in both states (level where not named), and the log. */
export interface Told {
  name: string
  before: Readonly<Record<number, VerdictName>> | 'not captured'
  after: Readonly<Record<number, VerdictName>> | 'not captured'
  /** What the captures' own check says of each cylinder that was odd; `left out` where the two stages do not compare. */
  check: RepairVerdict | 'not comparable'
  /** Rows of the log under `at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,outcome`. */
  log: readonly string[]
  /** Firing voltage of every cylinder, kV. */
  firingKv?: number
  /** Late rise at both ends of the swing of the speed, of cylinders whose mixture follows it. */
  overSwing?: Readonly<Record<number, WithSpeed>>
  cause?: string
  coldFound?: boolean
  coldAfter?: boolean
  tooEarly?: boolean
}

const CYLINDERS = [1, 2, 3, 4, 5, 6, 7, 8]
const BANKS = { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] }
const HEAD = 'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,outcome'
const WORK = '2026-03-04T11:00:00Z,repair,brake hose,before,,,,,,,'
const TRIM = (stage: string, value: number) =>
  `2026-03-04T${stage === 'after' ? 12 : 10}:00:00Z,trim,,${stage},idle,STFT1,${value},%,,,`

const FAULTS = verdictNames.filter((name) => !['level', 'borderline', 'not judged'].includes(name))
const of = (cylinders: readonly number[], each: (n: number) => VerdictName): Record<number, VerdictName> =>
  Object.fromEntries(cylinders.map((n) => [n, each(n)]))

/** Each fault on one cylinder, on some, on a bank, on all; none; near the limit, not judged, and both beside a fault. */
const FOUND: readonly Pick<Told, 'name' | 'before'>[] = [
  ...FAULTS.flatMap((fault) => [
    { name: `${fault}, one`, before: of([3], () => fault) },
    { name: `${fault}, some`, before: of([2, 3, 4, 6, 8], () => fault) },
    { name: `${fault}, bank`, before: of(BANKS[1], () => fault) },
    { name: `${fault}, all`, before: of(CYLINDERS, () => fault) },
  ]),
  { name: 'faults that differ', before: { 2: 'lean', 5: 'external resistance', 6: 'misfiring' } },
  { name: 'none', before: {} },
  { name: 'near the limit, one', before: { 4: 'borderline' } },
  { name: 'near the limit, some', before: { 4: 'borderline', 5: 'borderline', 8: 'borderline' } },
  { name: 'near the limit, all', before: of(CYLINDERS, () => 'borderline') },
  { name: 'near the limit within a bank', before: { 1: 'lean', 3: 'lean', 5: 'lean', 7: 'borderline' } },
  { name: 'not judged, one', before: { 4: 'not judged' } },
  { name: 'not judged, all', before: of(CYLINDERS, () => 'not judged') },
  {
    name: 'a fault beside what is open',
    before: { 1: 'lean', 2: 'borderline', 3: 'borderline', 6: 'not judged', 7: 'not judged' },
  },
]

type Outcome = (before: Told['before']) => Pick<Told, 'after' | 'check' | 'log'> & Partial<Told>
const first = (before: Told['before']) => Object.entries(before === 'not captured' ? {} : before).slice(0, 1)

/** How the work comes out, by name. */
const OUTCOMES: Readonly<Record<string, Outcome>> = {
  'nothing done': () => ({ after: 'not captured', check: 'not checked', log: [] }),
  'nothing after': () => ({ after: 'not captured', check: 'not checked', log: [WORK] }),
  'taken too early': () => ({ after: 'not captured', check: 'not checked', log: [WORK], tooEarly: true }),
  'not comparable': () => ({ after: {}, check: 'not comparable', log: [WORK], coldAfter: true }),
  mended: () => ({ after: {}, check: 'repair confirmed', log: [WORK, TRIM('before', 20), TRIM('after', 2)] }),
  'mended in part': (before) => ({
    after: Object.fromEntries(first(before)),
    check: 'improved, not in order',
    log: [WORK],
  }),
  'no change': (before) => ({ after: before, check: 'no change', log: [WORK] }),
  worse: (before) => ({
    after: { ...(before === 'not captured' ? {} : before), 8: 'open secondary' },
    check: 'worse',
    log: [WORK],
  }),
  'not judged after': () => ({ after: of(CYLINDERS, () => 'not judged'), check: 'not checked', log: [WORK] }),
}

const AT = '2026-03-04T09:30:00Z'
/** Lean while the idle dips, level while it surges. */
const SWINGING: WithSpeed = { lowRpm: 640, highRpm: 920, atLow: 34, atHigh: 3, lowReach: 6, highReach: 6 }
/** Faults and remarks that the log or the figures beside the mixture show. */
const OTHERS: readonly Told[] = [
  ...(
    [
      [
        'compression high',
        'compression,,before,cranking,cylinder 1,1900,kPa,1000,1500,',
        'compression,,before,cranking,cylinder 2,1300,kPa,1000,1500,',
      ],
      ['compression low by the maker', 'compression,,before,cranking,cylinder 1,800,kPa,1000,1500,'],
      [
        'compression low by the best',
        ...CYLINDERS.map((n) => `compression,,before,cranking,cylinder ${n},${n === 5 ? 700 : 1200},kPa,,,`),
      ],
      ['fuel pressure low', 'fuel-pressure,,before,,idle,2,bar,3,4,'],
      ['fuel pressure high', 'fuel-pressure,,before,,idle,6,bar,3,4,'],
      [
        'fuel pressure falls',
        'fuel-pressure,,before,,key-on,3.5,bar,3,4,',
        'fuel-pressure,,before,,hold,1,bar,,,',
      ],
      ['trims rich', 'trim,,before,idle,STFT1,-20,%,,,'],
      ['trims lean', 'trim,,before,idle,STFT1,20,%,,,'],
      ['gas lean', ...gas(0.1, 12, 6, 60)],
      ['gas rich', ...gas(6, 11, 0.3, 300)],
      ['one gas out', 'gas,,before,idle,HC,900,ppm,0,200,'],
      ['vacuum low', 'vacuum,,before,idle,manifold,12,inHg,17,21,'],
      ['vacuum high', 'vacuum,,before,idle,manifold,25,inHg,17,21,'],
      ['a code', 'code,,before,,P0420,,,,,'],
      ['a place that answers', 'spray,brake hose,before,idle,propane,,,,,response'],
      ['smoke at a place no words fit', 'smoke,grey box,before,,,,,,,leak'],
    ] as readonly (readonly [string, ...string[]])[]
  ).flatMap(([name, ...rows]): Told[] => [
    { name, before: {}, after: 'not captured', check: 'not checked', log: rows.map((r) => `${AT},${r}`) },
    {
      name: `${name}, worked on and not read again`,
      before: {},
      after: {},
      check: 'no change',
      log: [...rows.map((r) => `${AT},${r}`), WORK],
    },
  ]),
  {
    name: 'sprays that contradict',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: [
      '2026-03-04T09:30:00Z,spray,brake hose,before,idle,propane,,,,,response',
      '2026-03-04T09:32:00Z,spray,brake hose,before,idle,propane,,,,,no response',
    ],
  },
  {
    name: 'not captured, nothing done',
    before: 'not captured',
    after: 'not captured',
    check: 'not checked',
    log: [TRIM('before', 20)],
  },
  {
    name: 'captured after alone, the readings back',
    before: 'not captured',
    after: {},
    check: 'not checked',
    log: [TRIM('before', 20), WORK, TRIM('after', 2)],
  },
  {
    name: 'readings alone, back before the sparks were recorded again',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: [TRIM('before', 20), WORK, TRIM('after', 2)],
  },
  {
    name: 'a mended circuit that shows a lean cylinder',
    before: { 3: 'open secondary' },
    after: { 3: 'lean' },
    check: 'improved, not in order',
    log: [WORK],
  },
  {
    name: 'a cause stated that the work contradicts',
    before: of(CYLINDERS, () => 'lean'),
    after: of(CYLINDERS, () => 'lean'),
    check: 'no change',
    log: ['2026-03-04T11:00:00Z,repair,oxygen sensor,before,,,,,,,'],
    cause: 'oxygen sensor',
  },
  {
    name: 'a cause stated in words that name no part',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: [],
    cause: 'worn out',
  },
  {
    name: 'a cause stated that the tests found',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: ['2026-03-04T09:30:00Z,spray,brake hose,before,idle,propane,,,,,response'],
    cause: 'brake servo hose',
  },
  {
    name: 'long-term trim not yet relearned',
    before: of(CYLINDERS, () => 'lean'),
    after: {},
    check: 'repair confirmed',
    log: [
      TRIM('before', 20),
      WORK,
      '2026-03-04T12:00:00Z,trim,,after,idle,LTFT1,14,%,,,',
      '2026-03-04T12:00:00Z,trim,,after,idle,STFT1,-12,%,,,',
    ],
  },
  {
    name: 'all back in order, and the technician says it is not mended',
    before: of(CYLINDERS, () => 'lean'),
    after: {},
    check: 'repair confirmed',
    log: [`${WORK}not fixed`],
  },
  {
    name: 'work on a part of another system',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: ['2026-03-04T11:00:00Z,repair,battery,before,,,,,,,'],
  },
  {
    name: 'long-term trim alone',
    before: of(CYLINDERS, () => 'lean'),
    after: {},
    check: 'repair confirmed',
    log: [TRIM('before', 20), WORK, '2026-03-04T12:00:00Z,trim,,after,idle,LTFT1,14,%,,,'],
  },
  {
    name: 'recorded cold alone',
    before: {},
    after: 'not captured',
    check: 'not checked',
    log: [],
    coldFound: true,
  },
  {
    name: 'recorded cold alone, and lean by the limit, rich by the others',
    before: { 2: 'lean', 5: 'rich' },
    after: 'not captured',
    check: 'not checked',
    log: [],
    coldFound: true,
  },
  {
    name: 'ports left closed, and rows that bear on nothing',
    before: of(CYLINDERS, () => 'lean'),
    after: 'not captured',
    check: 'not checked',
    log: [
      `${AT},cap,brake hose,before,idle,,,,,,fixed`,
      `${AT},cap,canister hose,before,idle,,,,,,no response`,
      `${AT},smoke,grey box,before,,,,,,,`,
      `${AT},fuel-pressure,,before,,idle,3,bar,,,`,
    ],
  },
  {
    name: 'lean at one end of the swing',
    before: { 3: 'borderline' },
    after: 'not captured',
    check: 'not checked',
    log: [],
    overSwing: { 2: SWINGING, 3: SWINGING },
  },
  {
    name: 'lean at the other end of the swing',
    before: {},
    after: 'not captured',
    check: 'not checked',
    log: [],
    overSwing: { 4: { ...SWINGING, atLow: 3, atHigh: 34 } },
  },
  {
    name: 'rich at either end of the swing',
    before: {},
    after: 'not captured',
    check: 'not checked',
    log: [],
    overSwing: { 4: { ...SWINGING, atLow: -34 }, 5: { ...SWINGING, atLow: -3, atHigh: -34 } },
  },
  {
    name: 'firing voltage high on all',
    before: {},
    after: 'not captured',
    check: 'not checked',
    log: [],
    firingKv: 19,
  },
  {
    name: 'an injector that leaks',
    before: { 4: 'rich' },
    after: 'not captured',
    check: 'not checked',
    log: [
      `${AT},fuel-pressure,,before,,key-on,3.5,bar,3,4,`,
      `${AT},fuel-pressure,,before,,hold,1,bar,,,`,
      ...CYLINDERS.map((n) => `${AT},compression,,before,cranking,cylinder ${n},${1200 + n},kPa,,,`),
    ],
  },
]

function gas(co: number, co2: number, o2: number, hc: number): string[] {
  return [`CO,${co},%vol`, `CO2,${co2},%vol`, `O2,${o2},%vol`, `HC,${hc},ppm`].map(
    (reading) => `gas,,before,idle,${reading},,,`,
  )
}

/** Every kind of finding with every way the work comes out, and what log and other figures show. */
export const TOLD: readonly Told[] = [
  ...FOUND.flatMap((found) =>
    Object.entries(OUTCOMES).map(([outcome, make]) => ({
      ...found,
      ...make(found.before),
      name: `${found.name}; ${outcome}`,
    })),
  ),
  ...OTHERS,
]

/** The conclusion of a told job, by the program's own functions; only the captures' measuring is left out. */
export function concludeTold(told: Told): Conclusion {
  const limits = loadLimits()
  const job = { ...logJob(), engine: { ...logJob().engine, cylinders: CYLINDERS.length, banks: BANKS } }
  const { tests, problems } = readTests({
    log: logRows([HEAD, ...told.log].join('\n')),
    traces: new Map(),
    job,
    limits,
  })
  if (problems.some((p) => p.severity === 'refuse'))
    throw new Error(`${told.name}: ${JSON.stringify(problems)}`)
  const captures = (['before', 'after'] as const)
    .filter((stage) => told[stage] !== 'not captured')
    .map((stage) => ({ stage, condition: 'idle', engine: engineIn(told, stage) }))
  const work = workOf({ tests, captures, correction: undefined })
  const seen: Seen = {
    cylinders: CYLINDERS,
    banks: BANKS,
    judged: captures.flatMap(({ stage }) => CYLINDERS.map((n) => seenCylinder(told, stage, n))),
    swing: {},
    tests,
    tooEarly: new Set(),
    limits,
  }
  const comparable = told.check !== 'not comparable'
  const grounds = groundsOf(seen, {
    work,
    check: {
      verdict: 'not checked',
      forbids: 'none',
      comparable,
      conditions: [],
      cylinders: comparable && captures.length === 2 ? CYLINDERS.map((n) => checked(told, n)) : [],
    },
    tooEarly: told.tooEarly ? ['captures/after.csv'] : [],
    coldAfter: told.coldAfter ?? false,
  })
  const engine = { cylinders: CYLINDERS, banks: BANKS }
  const picture = (state: 'as found' | 'after') => ({
    cylinders: seen.judged
      .filter((c) => c.state === state)
      .map((c) => ({ cylinder: c.cylinder, verdict: c.verdict, apart: c.apart })),
    swing: absent('not-recorded'),
  })
  const { shipped } = loadCauses()
  const weighed = weighCauses(
    { engine, captures: picture('as found'), after: picture('after'), tests, repair: grounds.repair },
    causesInForce({ shipped, overrides: undefined }),
    limits,
  )
  return conclude(grounds, {
    weighed,
    cause: told.cause,
    correction: undefined,
    limits,
    events: captures.length * CYLINDERS.length * 58,
    captures,
  })
}

function verdictIn(told: Told, stage: 'before' | 'after', cylinder: number): VerdictName {
  const verdicts = told[stage]
  return verdicts === 'not captured' ? 'not judged' : (verdicts[cylinder] ?? 'level')
}

const engineIn = (told: Told, stage: 'before' | 'after'): 'warm' | 'cold' =>
  (stage === 'after' ? told.coldAfter : told.coldFound) ? 'cold' : 'warm'

const RISES: Readonly<Partial<Record<VerdictName, number>>> = {
  lean: 38,
  borderline: 20,
  rich: -35,
  falling: -35,
  'low compression': -35,
}

function seenCylinder(told: Told, stage: 'before' | 'after', cylinder: number): SeenCylinder {
  const verdict = verdictIn(told, stage, cylinder)
  const ok = <U extends string>(value: number, unit: U) => ({
    ok: true as const,
    value,
    low: value - 3,
    high: value + 3,
    unit,
    mad: 1,
    n: 58,
    budget: [],
  })
  const none = Object.fromEntries(
    Object.keys(FIGURE_UNITS).map((name) => [name, absent('not-recorded')]),
  ) as unknown as CylinderSummaries
  return {
    state: stage === 'before' ? 'as found' : 'after',
    cylinder,
    capture: `captures/idle-${stage}.csv`,
    condition: 'idle',
    engine: engineIn(told, stage),
    verdict,
    rule: 'late-rise',
    running: engineIn(told, stage) === 'cold' ? 'cold' : 'idle',
    basis: engineIn(told, stage) === 'cold' && verdict === 'rich' ? 'fellows' : 'limit',
    reason: sentence('verdict.figure-absent', { why: sentence('report.absent.clipped') }),
    figures: {
      ...none,
      lateRisePct: ok(RISES[verdict] ?? 1, '%'),
      startKv: ok(verdict === 'external resistance' ? 3.6 : 2.2, 'kV'),
      ...(told.firingKv === undefined ? {} : { firingKv: ok(told.firingKv, 'kV') }),
    },
    riseWithSpeed: told.overSwing?.[cylinder],
    missesPct: verdict === 'misfiring' ? 12 : 0,
    apart:
      told.firingKv === undefined
        ? []
        : [
            {
              figure: 'firing_kv',
              direction: 'high',
              against: 'usual',
              size: { value: 27, low: 20, high: 34, unit: '%' },
              limits: ['firingUsualHighKv'],
              says: sentence('verdict.level', { lateRisePct: 1, limitPct: 20 }),
            },
          ],
  }
}

const ODD = new Set<VerdictName>(FAULTS)
/** A spark that was there and is gone is a worsening, whatever the mixture was. */
const DEAD = new Set<VerdictName>(['open secondary', 'misfiring'])
function checked(told: Told, cylinder: number): CylinderRepair {
  const [before, after] = [verdictIn(told, 'before', cylinder), verdictIn(told, 'after', cylinder)]
  const better = ODD.has(before) && after === 'level'
  const unjudged = before === 'not judged' || after === 'not judged'
  return {
    cylinder,
    before,
    after,
    verdict: unjudged
      ? 'not checked'
      : better
        ? 'repair confirmed'
        : (!ODD.has(before) && ODD.has(after)) || (!DEAD.has(before) && DEAD.has(after))
          ? 'worse'
          : ODD.has(before) && before !== after
            ? 'improved, not in order'
            : 'no change',
    shifts: {},
  }
}

/** A result that tells this on its page one. */
export function resultTelling(told: Told, texts: Texts): Result {
  const { result } = sampleJob({ cylinders: 8, after: told.after !== 'not captured', tests: 9 })
  const marks = new Map(result.captures.map(({ file, mark }) => [file, mark]))
  const conclusion = conclusionRecord(texts, concludeTold(told), marks)
  return {
    ...result,
    language: texts.language,
    conclusion,
    summary: summaryOf(conclusion),
    next_test: null,
    job: { ...result.job, cause: told.cause ?? null },
  }
}

/** Page one alone, as it is printed: its paragraphs in reading order, and all its words. */
export async function pageOneOf(
  result: Result,
  texts: Texts,
): Promise<{ paragraphs: string[]; words: string }> {
  const section = customerPage({ result, texts, charts: [], photos: new Map(), missingSigns: [] })
  const bytes = await composeSections([section], {
    typeface: await openTypeface(),
    paper: 'A4',
    attachments: [],
    heads: { left: '', right: '', footLeft: '', pageOf: () => '' },
    facts: {
      title: 't',
      author: 'a',
      subject: 's',
      language: texts.language,
      when: '2026-03-05T00:00:00Z',
      tool: 't',
      producer: 'p',
      inputsSha256: '0'.repeat(64),
    },
  })
  const doc = await openPdf(bytes)
  return { paragraphs: await wordsOf(doc, 1, 'P'), words: await pageText(doc, 1) }
}
