import { callout } from '../report/blocks/callout.ts'
import { chart } from '../report/blocks/chart.ts'
import { heading } from '../report/blocks/heading.ts'
import { keyValues } from '../report/blocks/key-values.ts'
import { paragraph } from '../report/blocks/paragraph.ts'
import { table, type Cell } from '../report/blocks/table.ts'
import type { Block } from '../report/blocks/block.ts'
import type { Section } from '../report/pages/page-input.ts'
import { meaningOf } from '../texts/explain.ts'
import { formatNumber } from '../texts/format-quantity.ts'
import type { Given, TextKey, Texts, WordKey } from '../texts/messages.ts'
import { say, wordOf } from '../texts/say.ts'
import type { VehicleHistory } from './attention.ts'
import { bars } from './charts/bars.ts'
import { rises } from './charts/rises.ts'
import { STATUS_WORDS } from '../conclusion/status-words.ts'
import { CAUSE_WORDS } from '../verdicts/causes/cause-kinds.ts'
import { REPAIR_WORDS, VERDICT_WORDS } from '../verdicts/verdict-words.ts'
import { FAMILIES } from '../verdicts/kinds/index.ts'
import { periodOf } from './charts/time-axis.ts'
import { timelines } from './charts/timelines.ts'
import type { JobState } from './fleet-row.ts'
import type { HistoryRow, Repeat } from './repeats.ts'
import { REVIEW_ENDS, type ReviewEnd, type SettledReview } from './reviews.ts'
import { dayWords, monthWords, periodWords, vehicleName } from './words.ts'
import { byCount, isRepairCase, isUnchecked, OUTCOMES, outcomeOf, type Outcome, type Tally } from './tally.ts'

/** What a fleet report is made from. */
export interface FleetInput {
  tally: Tally
  /** Vehicles that want attention first; not all of a large fleet. */
  attention: readonly VehicleHistory[]
  /** SHA-256 of fleet.csv and fleet.json. */
  digests: { csv: string; json: string }
  texts: Texts
  page: 'A4' | 'LETTER'
  version: string
}

/** Periods a bar each is drawn of, causes named, rows of the lists. The rest is counted together, or stands in fleet.csv. */
const MOST_PERIODS = 24
const MOST_CAUSES = 15
const MOST_LISTED = 100
const MOST_HISTORY_ROWS = 1500
const MOST_CODES = 20

const OUTCOME_WORDS: Readonly<Record<Outcome, WordKey>> = {
  fault: 'fleet.outcome.fault',
  unsure: 'fleet.outcome.unsure',
  'in order': 'fleet.outcome.in-order',
  'no record': 'fleet.outcome.no-record',
}
const ALIKE: Readonly<Record<Repeat['kind'], WordKey>> = {
  'same cylinder': 'fleet.alike.same-cylinder',
  'same kind': 'fleet.alike.same-kind',
}
const STATES: Readonly<Record<JobState, WordKey>> = {
  reported: 'fleet.state.reported',
  invalid: 'fleet.state.invalid',
  skipped: 'fleet.state.skipped',
  unreadable: 'fleet.state.unreadable',
  altered: 'fleet.state.altered',
}
const REVIEW_WORDS: Readonly<Record<ReviewEnd, WordKey>> = {
  reviewer: 'fleet.review.reviewer',
  report: 'fleet.review.report',
  neither: 'fleet.review.neither',
  open: 'fleet.review.open',
}
const COUNT_COLUMNS = [
  'fleet.column.jobs',
  'fleet.column.faults',
  'fleet.column.repeats',
  'fleet.column.unchecked',
] as const

/** The fleet report in reading order. */
export const fleetSections = (input: FleetInput): Section[] =>
  [
    summary(input),
    overTime(input),
    causes(input),
    repairs(input),
    repeats(input),
    reviews(input),
    history(input),
    quality(input),
    about(input),
  ].filter(({ blocks }) => blocks.length > 0)

const t = <K extends TextKey>({ texts }: FleetInput, key: K, ...args: Given<K>): string =>
  say(texts, key, ...args)
const number = ({ texts }: FleetInput, value: number): string => formatNumber(value, 0, texts.language)

function summary(input: FleetInput): Section {
  const { tally, attention } = input
  const months = [...tally.months.keys()].filter((month) => month !== '').sort()
  const count = (name: string) => number(input, tally.outcomes.get(name) ?? 0)
  return {
    title: t(input, 'fleet.title'),
    level: 1,
    blocks: [
      paragraph(
        months.length === 0
          ? t(input, 'fleet.no-dates')
          : t(input, 'fleet.period', {
              from: monthWords(input.texts, months[0]!),
              to: monthWords(input.texts, months.at(-1)!),
            }),
        { size: 'medium', color: 'quiet', gapPt: 2 },
      ),
      keyValues(
        [
          { name: t(input, 'fleet.jobs'), value: number(input, tally.jobs) },
          ...OUTCOMES.map((outcome) => ({ name: t(input, OUTCOME_WORDS[outcome]), value: count(outcome) })),
          {
            name: t(input, 'fleet.repeat-faults'),
            value: number(
              input,
              [...tally.repeats.values()].reduce((sum, n) => sum + n, 0),
            ),
          },
          {
            name: t(input, 'fleet.confirmed'),
            value: number(input, tally.repairs.get('repair confirmed') ?? 0),
          },
          { name: t(input, 'fleet.unchecked'), value: number(input, tally.uncheckedWork) },
        ],
        { nameShare: 0.55 },
      ),
      ...(tally.repeatsAfterConfirmed > 0
        ? [
            callout(
              t(input, 'fleet.after-confirmed-title'),
              t(input, 'fleet.after-confirmed', { jobs: tally.repeatsAfterConfirmed }),
            ),
          ]
        : []),
      ...(attention.length > 0
        ? [paragraph(t(input, 'fleet.attention')), vehicleTable(input, attention.slice(0, 12))]
        : []),
    ],
  }
}

const vehicleTable = (input: FleetInput, vehicles: readonly VehicleHistory[]): Block =>
  table({
    caption: t(input, 'fleet.attention'),
    columns: [
      { title: t(input, 'fleet.column.vehicle'), grow: 1 },
      ...COUNT_COLUMNS.map((key) => ({ title: t(input, key), grow: 0, align: 'right' as const })),
      { title: t(input, 'fleet.column.last'), grow: 0 },
      { title: t(input, 'fleet.column.now'), grow: 0 },
    ],
    rows: vehicles.map((v) => [
      nameCell(input, v),
      number(input, v.jobs),
      number(input, v.faults),
      number(input, v.repeats),
      number(input, v.unchecked),
      dayWords(input.texts, v.last),
      v.now === '' ? '\u2013' : { text: t(input, STATUS_WORDS[v.now]), strong: v.open },
    ]),
  })

/** A vehicle by what it is told by, and below it whatever else names it. */
function nameCell({ texts }: FleetInput, { vehicle, words, unitNumber, plate }: VehicleHistory): Cell {
  const text = vehicleName(texts, vehicle)
  const note = [
    words,
    vehicle.startsWith('unit ') || unitNumber === '' ? '' : say(texts, 'fleet.unit', { mark: unitNumber }),
    vehicle.startsWith('plate ') || plate === '' ? '' : say(texts, 'fleet.plate', { mark: plate }),
  ]
    .filter(Boolean)
    .join(', ')
  return note === '' ? { text } : { text, note }
}

function overTime(input: FleetInput): Section {
  const { tally } = input
  const months = [...tally.months.keys()]
  const period = periodOf(months, MOST_PERIODS)
  const sums = new Map<string, number[]>()
  for (const [month, counts] of tally.months) {
    const name = month === '' ? '' : period(month)
    const sum = sums.get(name) ?? OUTCOMES.map(() => 0)
    OUTCOMES.forEach((outcome, i) => {
      sum[i]! += counts.get(outcome) ?? 0
    })
    sums.set(name, sum)
  }
  const rows = [...sums]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .slice(-MOST_PERIODS)
    .map(([name, parts]) => ({ label: periodWords(input.texts, name), parts }))
  const names = OUTCOMES.map((outcome) => t(input, OUTCOME_WORDS[outcome]))
  return {
    title: t(input, 'fleet.over-time.title'),
    level: 2,
    blocks:
      rows.length === 0
        ? []
        : [
            chart(
              bars('fleet-periods', rows, {
                names,
                language: input.texts.language,
                title: t(input, 'fleet.over-time.chart'),
                alt: t(input, 'fleet.over-time.alt', { jobs: tally.jobs, periods: rows.length }),
              }),
            ),
          ],
  }
}

function causes(input: FleetInput): Section {
  const { tally, texts } = input
  const title = t(input, 'fleet.causes.title')
  const counted = [...tally.causes].sort(([a, m], [b, n]) => n.jobs - m.jobs || (a < b ? -1 : 1))
  const faults = tally.outcomes.get('fault') ?? 0
  if (counted.length === 0 && tally.unsettled === 0)
    return { title, level: 2, blocks: faults === 0 ? [] : [paragraph(t(input, 'fleet.causes.none'))] }
  const rest = counted.slice(MOST_CAUSES).reduce((sum, [, { jobs }]) => sum + jobs, 0)
  const nameOf = (id: string) => wordOf(texts, CAUSE_WORDS, id)
  const partsOf = ({ jobs, repairs }: { jobs: number; repairs: ReadonlyMap<string, number> }) => {
    const confirmed = repairs.get('repair confirmed') ?? 0
    const unchecked = repairs.get('not checked') ?? 0
    return [jobs - confirmed - unchecked, unchecked, confirmed]
  }
  const rows = [
    ...counted.slice(0, MOST_CAUSES).map(([id, cause]) => ({ label: nameOf(id), parts: partsOf(cause) })),
    ...(rest > 0
      ? [
          {
            label: t(input, 'fleet.causes.rest', { causes: counted.length - MOST_CAUSES }),
            parts: [0, rest, 0],
          },
        ]
      : []),
  ]
  const names = repairNames(input)
  return {
    title,
    level: 2,
    blocks: [
      paragraph(
        t(input, 'fleet.causes.intro', {
          settled: counted.reduce((sum, [, { jobs }]) => sum + jobs, 0),
          unsettled: tally.unsettled,
        }),
        { keepWithNext: rows.length > 0 },
      ),
      ...(rows.length > 0
        ? [
            chart(
              bars('fleet-causes', rows, {
                names,
                language: texts.language,
                title: t(input, 'fleet.causes.chart'),
                alt: t(input, 'fleet.causes.alt', { first: rows[0]!.label, causes: counted.length }),
              }),
            ),
          ]
        : []),
    ],
  }
}

/** What the parts of a bar of repairs are, in the tones that every chart has for a fault, for what is not known, and for order. */
const repairNames = (input: FleetInput): string[] => [
  t(input, 'fleet.causes.not-confirmed'),
  t(input, 'fleet.causes.not-checked'),
  t(input, 'fleet.causes.confirmed'),
]

function repairs(input: FleetInput): Section {
  const { tally, attention } = input
  const unchecked = attention.flatMap(({ rows }) => rows).filter(isUnchecked)
  return {
    title: t(input, 'fleet.repairs.title'),
    level: 2,
    blocks:
      tally.repairs.size === 0
        ? []
        : [
            chart(
              bars(
                'fleet-repairs',
                byCount(tally.repairs).map(([repair, jobs]) => ({
                  label: wordOf(input.texts, REPAIR_WORDS, repair),
                  parts:
                    repair === 'repair confirmed'
                      ? [0, 0, jobs]
                      : repair === 'not checked'
                        ? [0, jobs, 0]
                        : [jobs, 0, 0],
                })),
                {
                  names: repairNames(input),
                  language: input.texts.language,
                  title: t(input, 'fleet.repairs.chart'),
                  alt: t(input, 'fleet.repairs.alt', {
                    confirmed: tally.repairs.get('repair confirmed') ?? 0,
                    jobs: [...tally.repairs.values()].reduce((sum, n) => sum + n, 0),
                  }),
                },
              ),
            ),
            ...(unchecked.length === 0
              ? []
              : [
                  heading(3, t(input, 'fleet.repairs.unchecked-title')),
                  paragraph(t(input, 'fleet.repairs.unchecked', { jobs: tally.uncheckedWork }), {
                    keepWithNext: true,
                  }),
                  jobTable(input, unchecked.slice(0, MOST_LISTED)),
                  ...more(input, tally.uncheckedWork - Math.min(unchecked.length, MOST_LISTED)),
                ]),
          ],
  }
}

function repeats(input: FleetInput): Section {
  const rows = input.attention.flatMap((vehicle) => vehicle.rows).filter((row) => row.repeat)
  const all = [...input.tally.repeats.values()].reduce((sum, n) => sum + n, 0)
  return {
    title: t(input, 'fleet.repeats.title'),
    level: 2,
    blocks:
      all === 0
        ? []
        : [
            paragraph(t(input, 'fleet.repeats.intro'), { keepWithNext: true }),
            table({
              caption: t(input, 'fleet.repeats.title'),
              columns: [
                { title: t(input, 'fleet.column.vehicle'), grow: 1 },
                { title: t(input, 'fleet.column.job'), grow: 0 },
                { title: t(input, 'fleet.column.found'), grow: 1 },
                { title: t(input, 'fleet.column.earlier'), grow: 0.8 },
                { title: t(input, 'fleet.column.alike'), grow: 0 },
              ],
              rows: rows
                .slice(0, MOST_LISTED)
                .map((row) => [
                  vehicleName(input.texts, row.vehicle),
                  jobCell(input, row),
                  foundWords(input, row),
                  {
                    text: row.repeat!.workOrder,
                    note: wordOf(input.texts, REPAIR_WORDS, row.repeat!.repair),
                  },
                  t(input, ALIKE[row.repeat!.kind]),
                ]),
            }),
            ...more(input, all - Math.min(rows.length, MOST_LISTED)),
          ],
  }
}

/** What persons overruled, and who was right. */
function reviews(input: FleetInput): Section {
  const { tally, texts } = input
  const count = (end: ReviewEnd) => tally.reviews.get(end) ?? 0
  const all = REVIEW_ENDS.reduce((sum, end) => sum + count(end), 0)
  const rows = input.attention.flatMap(({ rows: jobs }) =>
    jobs.flatMap((row) => row.reviews.map((entry) => ({ row, entry }))),
  )
  const words = ({ of, cylinder }: SettledReview, word: string | null) =>
    of === 'verdict'
      ? t(input, 'fleet.review.cylinder', {
          cylinder: cylinder!,
          words: word === null ? t(input, 'fleet.review.nothing') : wordOf(texts, VERDICT_WORDS, word),
        })
      : word === null
        ? t(input, 'fleet.review.nothing')
        : wordOf(texts, CAUSE_WORDS, word)
  return {
    title: t(input, 'fleet.review.title'),
    level: 2,
    blocks:
      all === 0
        ? []
        : [
            paragraph(
              t(input, 'fleet.review.intro', {
                overruled: all,
                reviewer: count('reviewer'),
                report: count('report'),
                neither: count('neither'),
                open: count('open'),
              }),
              { keepWithNext: rows.length > 0 },
            ),
            ...(rows.length === 0
              ? []
              : [
                  table({
                    caption: t(input, 'fleet.review.title'),
                    columns: [
                      { title: t(input, 'fleet.column.vehicle'), grow: 1 },
                      { title: t(input, 'fleet.column.job'), grow: 0 },
                      { title: t(input, 'fleet.column.said'), grow: 1 },
                      { title: t(input, 'fleet.column.instead'), grow: 1 },
                      { title: t(input, 'fleet.column.later'), grow: 0.8 },
                    ],
                    rows: rows
                      .slice(0, MOST_LISTED)
                      .map(({ row, entry }) => [
                        vehicleName(texts, row.vehicle),
                        jobCell(input, row),
                        words(entry, entry.said),
                        { text: words(entry, entry.instead), note: entry.by },
                        {
                          text: t(input, REVIEW_WORDS[entry.end]),
                          note:
                            entry.settledBy === null
                              ? ''
                              : t(input, 'fleet.review.settled-by', { workOrder: entry.settledBy }),
                        },
                      ]),
                  }),
                ]),
            ...more(input, all - Math.min(rows.length, MOST_LISTED)),
          ],
  }
}

const more = (input: FleetInput, jobs: number): Block[] =>
  jobs > 0 ? [paragraph(t(input, 'fleet.more', { jobs }), { color: 'quiet' })] : []
const jobCell = ({ texts }: FleetInput, row: HistoryRow): Cell => ({
  text: row.workOrder,
  note: dayWords(texts, row.date),
})

/** What a job found: its odd cylinders, else its outcome. */
function foundWords(input: FleetInput, row: HistoryRow): string {
  if (row.verdicts.length === 0) return t(input, OUTCOME_WORDS[outcomeOf(row)])
  return [...new Set(row.verdicts.map((v) => v.verdict))]
    .map((verdict) =>
      t(input, 'fleet.found', {
        verdict: wordOf(input.texts, VERDICT_WORDS, verdict),
        cylinders: row.verdicts
          .filter((v) => v.verdict === verdict)
          .map((v) => v.cylinder)
          .join(', '),
      }),
    )
    .join('; ')
}

const jobTable = (input: FleetInput, rows: readonly HistoryRow[]): Block =>
  table({
    caption: t(input, 'fleet.repairs.unchecked-title'),
    columns: [
      { title: t(input, 'fleet.column.job'), grow: 0 },
      { title: t(input, 'fleet.column.vehicle'), grow: 1 },
      { title: t(input, 'fleet.column.found'), grow: 1 },
    ],
    rows: rows.map((row) => [
      jobCell(input, row),
      { text: vehicleName(input.texts, row.vehicle), note: row.vehicleWords },
      foundWords(input, row),
    ]),
  })

function history(input: FleetInput): Section {
  const { attention, texts } = input
  if (attention.length === 0) return { title: t(input, 'fleet.history.title'), level: 2, blocks: [] }
  const measured = rises(attention, texts)
  const rows = attention.flatMap((vehicle) =>
    vehicle.rows.map((row, i) => ({ vehicle, row, first: i === 0 })),
  )
  const shown = rows.slice(0, MOST_HISTORY_ROWS)
  const jobs = attention.reduce((sum, v) => sum + v.jobs, 0)
  return {
    title: t(input, 'fleet.history.title'),
    level: 2,
    blocks: [
      paragraph(t(input, 'fleet.history.intro', { vehicles: attention.length }), { keepWithNext: true }),
      ...timelines(attention, texts).map((plan) => chart(plan, { floats: false })),
      ...(measured.length > 0
        ? [
            heading(3, t(input, 'fleet.rise.title')),
            paragraph(t(input, 'fleet.rise.intro'), { keepWithNext: true }),
            ...measured.map((plan) => chart(plan, { floats: false })),
          ]
        : []),
      heading(3, t(input, 'fleet.history.table-title')),
      table({
        caption: t(input, 'fleet.history.table-title'),
        columns: [
          { title: t(input, 'fleet.column.vehicle'), grow: 1.1 },
          { title: t(input, 'fleet.column.job'), grow: 0 },
          { title: t(input, 'fleet.column.found'), grow: 1 },
          { title: t(input, 'fleet.column.rise'), grow: 0, align: 'right' },
          { title: t(input, 'fleet.column.cause'), grow: 1 },
          { title: t(input, 'fleet.column.repair'), grow: 0.7 },
        ],
        rows: shown.map(({ vehicle, row, first }) => [
          first ? nameCell(input, vehicle) : vehicleName(texts, vehicle.vehicle),
          jobCell(input, row),
          foundWords(input, row),
          riseCell(input, row),
          row.causeSettled ? wordOf(texts, CAUSE_WORDS, row.cause) : '\u2013',
          !isRepairCase(row) ? '\u2013' : wordOf(texts, REPAIR_WORDS, row.repair),
        ]),
      }),
      ...more(input, jobs - shown.length),
    ],
  }
}

function riseCell(
  { texts }: FleetInput,
  { lateRisePct, lateRiseAfterPct, odometer, odometerUnit }: HistoryRow,
): Cell {
  const percent = (value: number | null) =>
    value === null ? '\u2013' : `${formatNumber(value, 0, texts.language)}\u00a0%`
  const text =
    lateRiseAfterPct === null
      ? percent(lateRisePct)
      : `${percent(lateRisePct)} \u2192 ${percent(lateRiseAfterPct)}`
  return odometer === null
    ? { text }
    : { text, note: `${formatNumber(odometer, 0, texts.language)}\u00a0${odometerUnit}` }
}

function quality(input: FleetInput): Section {
  const { tally, texts } = input
  const share = (jobs: number) =>
    `${number(input, jobs)} / ${number(input, tally.states.get('reported') ?? 0)}`
  const codes = (title: WordKey, counts: ReadonlyMap<string, number>): Block[] =>
    counts.size === 0
      ? []
      : [
          heading(3, t(input, title)),
          table({
            caption: t(input, title),
            columns: [
              { title: t(input, 'fleet.column.code'), grow: 0 },
              { title: t(input, 'fleet.column.means'), grow: 1 },
              { title: t(input, 'fleet.column.jobs'), grow: 0, align: 'right' },
            ],
            rows: byCount(counts)
              .slice(0, MOST_CODES)
              .map(([code, jobs]) => [code, meaningOf(texts, code), number(input, jobs)]),
          }),
        ]
  return {
    title: t(input, 'fleet.quality.title'),
    level: 2,
    blocks: [
      keyValues(
        [
          ...byCount(tally.states).map(([state, jobs]) => ({
            name: wordOf(texts, STATES, state),
            value: number(input, jobs),
          })),
          {
            name: t(input, 'fleet.quality.not-judged'),
            value: `${number(input, tally.notJudgedCylinders)} / ${number(input, tally.cylinders)}`,
          },
          { name: t(input, 'fleet.quality.no-vehicle'), value: share(tally.noVehicle) },
          { name: t(input, 'fleet.quality.vin-fails'), value: share(tally.vinChecks.get('fails') ?? 0) },
          { name: t(input, 'fleet.quality.assumed'), value: share(tally.uncertaintyAssumed) },
          { name: t(input, 'fleet.quality.limits'), value: share(tally.limitsChanged) },
          { name: t(input, 'fleet.quality.unsigned'), value: share(tally.unsigned) },
        ],
        { nameShare: 0.62 },
      ),
      ...codes('fleet.quality.reasons', tally.reasons),
      ...codes('fleet.quality.warnings', tally.warnings),
      ...codes('fleet.quality.remarks', tally.remarks),
    ],
  }
}

function about(input: FleetInput): Section {
  const { tally } = input
  return {
    title: t(input, 'fleet.about.title'),
    level: 2,
    blocks: [
      paragraph(t(input, 'fleet.about.vehicle')),
      paragraph(
        t(input, 'fleet.about.repeat', {
          kinds: FAMILIES.map((f) => t(input, f.words)).join(t(input, 'list.semicolon')),
        }),
      ),
      paragraph(t(input, 'fleet.about.cause')),
      ...(tally.reviews.size > 0 ? [paragraph(t(input, 'fleet.about.review'))] : []),
      paragraph(t(input, 'fleet.about.limits')),
      paragraph(t(input, 'fleet.about.files', { version: input.version }), { keepWithNext: true }),
      keyValues(
        [
          { name: 'fleet.csv', value: input.digests.csv },
          { name: 'fleet.json', value: input.digests.json },
        ],
        { nameShare: 0.14 },
      ),
    ],
  }
}
