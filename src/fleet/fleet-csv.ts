import { toCsv, rounded, type Cell } from '../records/csv.ts'
import type { HistoryRow } from './repeats.ts'

const COLUMNS: readonly (readonly [name: string, cell: (row: HistoryRow) => Cell])[] = [
  ['work_order', (r) => r.workOrder],
  ['state', (r) => r.state],
  ['reason', (r) => r.reason],
  ['date', (r) => r.date],
  ['vehicle', (r) => r.vehicle],
  ['vin', (r) => r.vin],
  ['unit_number', (r) => r.unitNumber],
  ['customer', (r) => r.customer],
  ['vehicle_words', (r) => r.vehicleWords],
  ['odometer', (r) => r.odometer],
  ['odometer_unit', (r) => r.odometerUnit],
  ['pattern', (r) => r.pattern],
  ['verdicts', (r) => r.verdicts.map((v) => `${v.cylinder} ${v.verdict}`).join('; ')],
  ['cylinders_judged', (r) => whenReported(r, r.judged)],
  ['cylinders_borderline', (r) => whenReported(r, r.borderline)],
  ['cylinders_not_judged', (r) => whenReported(r, r.notJudged)],
  ['late_rise_pct', (r) => rounded(r.lateRisePct ?? undefined, 2)],
  ['late_rise_cylinder', (r) => r.lateRiseCylinder],
  ['late_rise_pct_after', (r) => rounded(r.lateRiseAfterPct ?? undefined, 2)],
  ['highest_firing_kv', (r) => rounded(r.highestFiringKv ?? undefined, 3)],
  ['shortest_burn_ms', (r) => rounded(r.shortestBurnMs ?? undefined, 4)],
  ['mean_rpm', (r) => rounded(r.meanRpm ?? undefined, 1)],
  ['swing_rpm', (r) => rounded(r.swingRpm ?? undefined, 1)],
  ['first_cause', (r) => r.cause],
  ['first_cause_share', (r) => rounded(r.causeShare ?? undefined, 3)],
  ['cause_settled', (r) => (r.cause === '' ? '' : yes(r.causeSettled))],
  ['repair', (r) => r.repair],
  ['repairs_logged', (r) => whenReported(r, r.work)],
  ['tests', (r) => whenReported(r, r.tests)],
  ['repeat_of', (r) => r.repeat?.workOrder ?? ''],
  ['repeat_kind', (r) => r.repeat?.kind ?? ''],
  ['warnings', (r) => r.warnings.join(' ')],
  ['remarks', (r) => r.remarks.join(' ')],
  ['vin_check', (r) => r.vinCheck],
  ['uncertainty_stated', (r) => whenReported(r, yes(r.uncertaintyStated))],
  ['limits_changed', (r) => whenReported(r, r.changedLimits)],
  ['signed', (r) => whenReported(r, yes(r.signed))],
  ['program_version', (r) => r.version],
  ['engine_as_found', (r) => r.engineAsFound],
  ['engine_now', (r) => r.engineNow],
  ['overruled', (r) => r.reviews.map(overruledCell).join('; ')],
  ['overruled_end', (r) => r.reviews.map(({ end }) => end).join('; ')],
  ['overruled_settled_by', (r) => r.reviews.map(({ settledBy }) => settledBy ?? '').join('; ')],
  [
    'changed_against_own',
    (r) => r.changed.map((c) => `${c.cylinder} ${c.figure} ${rounded(c.change, 1)}`).join('; '),
  ],
  ['next_step', (r) => r.nextStep],
]

const overruledCell = ({ of, cylinder, said, instead }: HistoryRow['reviews'][number]): string =>
  `${of === 'cause' ? 'cause' : cylinder} ${said ?? ''} > ${instead}`

const yes = (value: boolean): string => (value ? 'yes' : 'no')
const whenReported = (row: HistoryRow, cell: Cell): Cell => (row.state === 'reported' ? cell : '')

const NAMES = COLUMNS.map(([name]) => name)
const LINE_END = '\r\n'

/** Header line of fleet.csv. */
export const fleetCsvHead = (): string => NAMES.join(',') + LINE_END

/** Lines of fleet.csv for some rows, without the header. */
export function fleetCsvLines(rows: readonly HistoryRow[]): string {
  const whole = toCsv(
    NAMES,
    rows.map((row) => COLUMNS.map(([, cell]) => cell(row))),
  )
  return whole.slice(whole.indexOf(LINE_END) + LINE_END.length)
}
