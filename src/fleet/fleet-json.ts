import type { VehicleHistory } from './attention.ts'
import type { HistoryRow } from './repeats.ts'
import { REVIEW_ENDS } from './reviews.ts'
import { byCount, OUTCOMES, type Counts, type Tally } from './tally.ts'

const record = (counts: Counts): Record<string, number> => Object.fromEntries(byCount(counts))

/** fleet.json before its list of vehicles: `{ … "vehicles": [`. */
export function fleetJsonHead(tally: Tally, program: { name: string; version: string }): string {
  const head = {
    format: 1,
    program,
    jobs: tally.jobs,
    states: record(tally.states),
    outcomes: record(tally.outcomes),
    months: [...tally.months]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([month, counts]) => ({
        month: month === '' ? null : month,
        ...Object.fromEntries(OUTCOMES.map((o) => [o.replace(' ', '_'), counts.get(o) ?? 0])),
      })),
    faults: record(tally.families),
    causes: [...tally.causes]
      .sort(([a, m], [b, n]) => n.jobs - m.jobs || (a < b ? -1 : 1))
      .map(([id, { jobs, repairs }]) => ({ id, jobs, repairs: record(repairs) })),
    causes_unsettled: tally.unsettled,
    repairs: record(tally.repairs),
    work_not_checked: tally.uncheckedWork,
    repeat_faults: { ...record(tally.repeats), after_a_confirmed_repair: tally.repeatsAfterConfirmed },
    overruled: Object.fromEntries(REVIEW_ENDS.map((end) => [end, tally.reviews.get(end) ?? 0])),
    quality: {
      refused_for: record(tally.reasons),
      warnings: record(tally.warnings),
      remarks: record(tally.remarks),
      vin_checks: record(tally.vinChecks),
      without_vehicle: tally.noVehicle,
      uncertainty_assumed: tally.uncertaintyAssumed,
      limits_changed: tally.limitsChanged,
      not_signed: tally.unsigned,
      cylinders: tally.cylinders,
      cylinders_not_judged: tally.notJudgedCylinders,
    },
  }
  return `${JSON.stringify(head, null, 2).slice(0, -2)},\n  "vehicles": [`
}

/** One vehicle of fleet.json on a line of its own, with every job of its. */
export function fleetJsonVehicle(history: VehicleHistory, rows: readonly HistoryRow[]): string {
  const { vehicle, words, jobs, faults, repeats, unchecked, first, last, open, notShown } = history
  return JSON.stringify({
    vehicle,
    words,
    jobs,
    faults,
    repeat_faults: repeats,
    work_not_checked: unchecked,
    open_fault: open,
    repair_not_shown: notShown,
    first: first || null,
    last: last || null,
    history: rows.map((row) => ({
      work_order: row.workOrder,
      date: row.date || null,
      pattern: row.pattern,
      verdicts: row.verdicts,
      late_rise_pct: row.lateRisePct,
      late_rise_pct_after: row.lateRiseAfterPct,
      cause: row.causeSettled ? row.cause : null,
      repair: row.repair,
      engine_as_found: row.engineAsFound || null,
      engine_now: row.engineNow || null,
      next_step: row.nextStep || null,
      repeat_of: row.repeat?.workOrder ?? null,
      ...(row.changed.length === 0 ? {} : { changed_against_own: row.changed }),
      ...(row.reviews.length === 0
        ? {}
        : {
            overruled: row.reviews.map(({ settledBy, ...review }) => ({ ...review, settled_by: settledBy })),
          }),
    })),
  })
}

export const FLEET_JSON_END = '\n  ]\n}\n'
