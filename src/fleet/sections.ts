import { callout } from '../report/blocks/callout.ts'
import { chart } from '../report/blocks/chart.ts'
import { heading } from '../report/blocks/heading.ts'
import { keyValues } from '../report/blocks/key-values.ts'
import { paragraph } from '../report/blocks/paragraph.ts'
import { table, type Cell } from '../report/blocks/table.ts'
import type { Block } from '../report/blocks/block.ts'
import type { Section } from '../report/pages/page-input.ts'
import { wordFor } from '../report/pages/words.ts'
import { meaningOf } from '../texts/explain.ts'
import { formatNumber } from '../texts/format-quantity.ts'
import type { Args, Texts } from '../texts/messages.ts'
import { sayLoose } from '../texts/say.ts'
import type { VehicleHistory } from './attention.ts'
import { bars } from './charts/bars.ts'
import { rises } from './charts/rises.ts'
import { verdictWord } from '../charts/words.ts'
import type { VerdictName } from '../verdicts/verdict-names.ts'
import { periodOf } from './charts/time-axis.ts'
import { timelines } from './charts/timelines.ts'
import type { HistoryRow } from './repeats.ts'
import { dayWords, monthWords, periodWords, vehicleName } from './words.ts'
import { byCount, isRepairCase, isUnchecked, OUTCOMES, outcomeOf, type Tally } from './tally.ts'

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

/** The fleet report in reading order. */
export const fleetSections = (input: FleetInput): Section[] =>
  [
    summary(input),
    overTime(input),
    causes(input),
    repairs(input),
    repeats(input),
    history(input),
    quality(input),
    about(input),
  ].filter(({ blocks }) => blocks.length > 0)

const t = ({ texts }: FleetInput, key: string, args?: Args): string => sayLoose(texts, `fleet.${key}`, args)
const number = ({ texts }: FleetInput, value: number): string => formatNumber(value, 0, texts.language)

function summary(input: FleetInput): Section {
  const { tally, attention } = input
  const months = [...tally.months.keys()].filter((month) => month !== '').sort()
  const count = (name: string) => number(input, tally.outcomes.get(name) ?? 0)
  return {
    title: t(input, 'title'),
    level: 1,
    blocks: [
      paragraph(
        months.length === 0
          ? t(input, 'no-dates')
          : t(input, 'period', {
              from: monthWords(input.texts, months[0]!),
              to: monthWords(input.texts, months.at(-1)!),
            }),
        { size: 'medium', color: 'quiet', gapPt: 2 },
      ),
      keyValues(
        [
          { name: t(input, 'jobs'), value: number(input, tally.jobs) },
          ...OUTCOMES.map((outcome) => ({
            name: t(input, `outcome.${outcome.replace(' ', '-')}`),
            value: count(outcome),
          })),
          {
            name: t(input, 'repeat-faults'),
            value: number(
              input,
              [...tally.repeats.values()].reduce((sum, n) => sum + n, 0),
            ),
          },
          { name: t(input, 'confirmed'), value: number(input, tally.repairs.get('repair confirmed') ?? 0) },
          { name: t(input, 'unchecked'), value: number(input, tally.uncheckedWork) },
        ],
        { nameShare: 0.55 },
      ),
      ...(tally.repeatsAfterConfirmed > 0
        ? [
            callout(
              t(input, 'after-confirmed-title'),
              t(input, 'after-confirmed', { jobs: tally.repeatsAfterConfirmed }),
            ),
          ]
        : []),
      ...(attention.length > 0
        ? [paragraph(t(input, 'attention')), vehicleTable(input, attention.slice(0, 12))]
        : []),
    ],
  }
}

const vehicleTable = (input: FleetInput, vehicles: readonly VehicleHistory[]): Block =>
  table({
    caption: t(input, 'attention'),
    columns: [
      { title: t(input, 'column.vehicle'), grow: 1 },
      ...(['jobs', 'faults', 'repeats', 'unchecked'] as const).map((key) => ({
        title: t(input, `column.${key}`),
        grow: 0,
        align: 'right' as const,
      })),
      { title: t(input, 'column.last'), grow: 0 },
    ],
    rows: vehicles.map((v) => [
      nameCell(input, v),
      number(input, v.jobs),
      number(input, v.faults),
      number(input, v.repeats),
      number(input, v.unchecked),
      dayWords(input.texts, v.last),
    ]),
  })

function nameCell({ texts }: FleetInput, { vehicle, words }: VehicleHistory): Cell {
  const text = vehicleName(texts, vehicle)
  return words === '' ? { text } : { text, note: words }
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
  const names = OUTCOMES.map((outcome) => t(input, `outcome.${outcome.replace(' ', '-')}`))
  return {
    title: t(input, 'over-time.title'),
    level: 2,
    blocks:
      rows.length === 0
        ? []
        : [
            chart(
              bars('fleet-periods', rows, {
                names,
                language: input.texts.language,
                title: t(input, 'over-time.chart'),
                alt: t(input, 'over-time.alt', { jobs: tally.jobs, periods: rows.length }),
              }),
            ),
          ],
  }
}

function causes(input: FleetInput): Section {
  const { tally, texts } = input
  const title = t(input, 'causes.title')
  const counted = [...tally.causes].sort(([a, m], [b, n]) => n.jobs - m.jobs || (a < b ? -1 : 1))
  const faults = tally.outcomes.get('fault') ?? 0
  if (counted.length === 0 && tally.unsettled === 0)
    return { title, level: 2, blocks: faults === 0 ? [] : [paragraph(t(input, 'causes.none'))] }
  const rest = counted.slice(MOST_CAUSES).reduce((sum, [, { jobs }]) => sum + jobs, 0)
  const nameOf = (id: string) => texts.templates[`cause.${id}`] ?? id
  const partsOf = ({ jobs, repairs }: { jobs: number; repairs: ReadonlyMap<string, number> }) => {
    const confirmed = repairs.get('repair confirmed') ?? 0
    const unchecked = repairs.get('not checked') ?? 0
    return [confirmed, jobs - confirmed - unchecked, unchecked]
  }
  const rows = [
    ...counted.slice(0, MOST_CAUSES).map(([id, cause]) => ({ label: nameOf(id), parts: partsOf(cause) })),
    ...(rest > 0
      ? [{ label: t(input, 'causes.rest', { causes: counted.length - MOST_CAUSES }), parts: [0, rest, 0] }]
      : []),
  ]
  const names = ['confirmed', 'not-confirmed', 'not-checked'].map((key) => t(input, `causes.${key}`))
  return {
    title,
    level: 2,
    blocks: [
      paragraph(
        t(input, 'causes.intro', {
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
                title: t(input, 'causes.chart'),
                alt: t(input, 'causes.alt', { first: rows[0]!.label, causes: counted.length }),
              }),
            ),
          ]
        : []),
    ],
  }
}

function repairs(input: FleetInput): Section {
  const { tally, attention } = input
  const unchecked = attention.flatMap(({ rows }) => rows).filter(isUnchecked)
  return {
    title: t(input, 'repairs.title'),
    level: 2,
    blocks:
      tally.repairs.size === 0
        ? []
        : [
            chart(
              bars(
                'fleet-repairs',
                byCount(tally.repairs).map(([repair, jobs]) => ({
                  label: wordFor(input.texts, 'repair', repair),
                  parts: [jobs],
                })),
                {
                  names: [''],
                  language: input.texts.language,
                  title: t(input, 'repairs.chart'),
                  alt: t(input, 'repairs.alt', {
                    confirmed: tally.repairs.get('repair confirmed') ?? 0,
                    jobs: [...tally.repairs.values()].reduce((sum, n) => sum + n, 0),
                  }),
                },
              ),
            ),
            ...(unchecked.length === 0
              ? []
              : [
                  heading(3, t(input, 'repairs.unchecked-title')),
                  paragraph(t(input, 'repairs.unchecked', { jobs: tally.uncheckedWork }), {
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
    title: t(input, 'repeats.title'),
    level: 2,
    blocks:
      all === 0
        ? []
        : [
            paragraph(t(input, 'repeats.intro'), { keepWithNext: true }),
            table({
              caption: t(input, 'repeats.title'),
              columns: [
                { title: t(input, 'column.vehicle'), grow: 1 },
                { title: t(input, 'column.job'), grow: 0 },
                { title: t(input, 'column.found'), grow: 1 },
                { title: t(input, 'column.earlier'), grow: 0.8 },
                { title: t(input, 'column.alike'), grow: 0 },
              ],
              rows: rows
                .slice(0, MOST_LISTED)
                .map((row) => [
                  vehicleName(input.texts, row.vehicle),
                  jobCell(input, row),
                  foundWords(input, row),
                  { text: row.repeat!.workOrder, note: wordFor(input.texts, 'repair', row.repeat!.repair) },
                  t(input, `alike.${row.repeat!.kind.replace(' ', '-')}`),
                ]),
            }),
            ...more(input, all - Math.min(rows.length, MOST_LISTED)),
          ],
  }
}

const more = (input: FleetInput, jobs: number): Block[] =>
  jobs > 0 ? [paragraph(t(input, 'more', { jobs }), { color: 'quiet' })] : []
const jobCell = ({ texts }: FleetInput, row: HistoryRow): Cell => ({
  text: row.workOrder,
  note: dayWords(texts, row.date),
})

/** What a job found: its odd cylinders, else its outcome. */
function foundWords(input: FleetInput, row: HistoryRow): string {
  if (row.verdicts.length === 0) return t(input, `outcome.${outcomeOf(row).replace(' ', '-')}`)
  return [...new Set(row.verdicts.map((v) => v.verdict))]
    .map((verdict) =>
      t(input, 'found', {
        verdict: verdictWord(input.texts, verdict as VerdictName),
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
    caption: t(input, 'repairs.unchecked-title'),
    columns: [
      { title: t(input, 'column.job'), grow: 0 },
      { title: t(input, 'column.vehicle'), grow: 1 },
      { title: t(input, 'column.found'), grow: 1 },
    ],
    rows: rows.map((row) => [
      jobCell(input, row),
      { text: vehicleName(input.texts, row.vehicle), note: row.vehicleWords },
      foundWords(input, row),
    ]),
  })

function history(input: FleetInput): Section {
  const { attention, texts } = input
  if (attention.length === 0) return { title: t(input, 'history.title'), level: 2, blocks: [] }
  const measured = rises(attention, texts)
  const rows = attention.flatMap((vehicle) =>
    vehicle.rows.map((row, i) => ({ vehicle, row, first: i === 0 })),
  )
  const shown = rows.slice(0, MOST_HISTORY_ROWS)
  const jobs = attention.reduce((sum, v) => sum + v.jobs, 0)
  return {
    title: t(input, 'history.title'),
    level: 2,
    blocks: [
      paragraph(t(input, 'history.intro', { vehicles: attention.length }), { keepWithNext: true }),
      ...timelines(attention, texts).map((plan) => chart(plan, { floats: false })),
      ...(measured.length > 0
        ? [
            heading(3, t(input, 'rise.title')),
            paragraph(t(input, 'rise.intro'), { keepWithNext: true }),
            ...measured.map((plan) => chart(plan, { floats: false })),
          ]
        : []),
      heading(3, t(input, 'history.table-title')),
      table({
        caption: t(input, 'history.table-title'),
        columns: [
          { title: t(input, 'column.vehicle'), grow: 1.1 },
          { title: t(input, 'column.job'), grow: 0 },
          { title: t(input, 'column.found'), grow: 1 },
          { title: t(input, 'column.rise'), grow: 0, align: 'right' },
          { title: t(input, 'column.cause'), grow: 1 },
          { title: t(input, 'column.repair'), grow: 0.7 },
        ],
        rows: shown.map(({ vehicle, row, first }) => [
          first ? nameCell(input, vehicle) : vehicleName(texts, vehicle.vehicle),
          jobCell(input, row),
          foundWords(input, row),
          riseCell(input, row),
          row.causeSettled ? (texts.templates[`cause.${row.cause}`] ?? row.cause) : '\u2013',
          !isRepairCase(row) ? '\u2013' : wordFor(texts, 'repair', row.repair),
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
  const codes = (key: string, counts: ReadonlyMap<string, number>): Block[] =>
    counts.size === 0
      ? []
      : [
          heading(3, t(input, `quality.${key}`)),
          table({
            caption: t(input, `quality.${key}`),
            columns: [
              { title: t(input, 'column.code'), grow: 0 },
              { title: t(input, 'column.means'), grow: 1 },
              { title: t(input, 'column.jobs'), grow: 0, align: 'right' },
            ],
            rows: byCount(counts)
              .slice(0, MOST_CODES)
              .map(([code, jobs]) => [code, meaningOf(texts, code), number(input, jobs)]),
          }),
        ]
  return {
    title: t(input, 'quality.title'),
    level: 2,
    blocks: [
      keyValues(
        [
          ...byCount(tally.states).map(([state, jobs]) => ({
            name: t(input, `state.${state}`),
            value: number(input, jobs),
          })),
          {
            name: t(input, 'quality.not-judged'),
            value: `${number(input, tally.notJudgedCylinders)} / ${number(input, tally.cylinders)}`,
          },
          { name: t(input, 'quality.no-vehicle'), value: share(tally.noVehicle) },
          { name: t(input, 'quality.vin-fails'), value: share(tally.vinChecks.get('fails') ?? 0) },
          { name: t(input, 'quality.assumed'), value: share(tally.uncertaintyAssumed) },
          { name: t(input, 'quality.limits'), value: share(tally.limitsChanged) },
          { name: t(input, 'quality.unsigned'), value: share(tally.unsigned) },
        ],
        { nameShare: 0.62 },
      ),
      ...codes('reasons', tally.reasons),
      ...codes('warnings', tally.warnings),
      ...codes('remarks', tally.remarks),
    ],
  }
}

function about(input: FleetInput): Section {
  return {
    title: t(input, 'about.title'),
    level: 2,
    blocks: [
      ...['vehicle', 'repeat', 'cause', 'limits'].map((key) => paragraph(t(input, `about.${key}`))),
      paragraph(t(input, 'about.files', { version: input.version }), { keepWithNext: true }),
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
