import type { Limits } from '../limits/limits.ts'
import type { Job } from '../job/schema.ts'
import type { Finding, TestFinding } from './findings.ts'
import type { LogEntry } from './entry.ts'

/** Rows of the log that make one test, at least one. */
export type TestGroup = readonly [LogEntry, ...LogEntry[]]

/** What a step may look at besides its own rows. */
export interface StepContext {
  job: Job
  limits: Limits
}

/** Rows that share time, step, stage, condition, place, trace and spray make one test; in the order of the log. */
export function groupEntries(entries: readonly LogEntry[]): TestGroup[] {
  const groups = new Map<string, [LogEntry, ...LogEntry[]]>()
  for (const entry of entries) {
    const { at, step, stage, condition, place, trace, fromS } = entry
    const key = JSON.stringify([at, step, stage, condition, place, trace, fromS])
    const group = groups.get(key)
    if (group) group.push(entry)
    else groups.set(key, [entry])
  }
  return [...groups.values()]
}

/** Everything of a test that is copied from the log; finding `recorded` until a step says more. */
export function recorded(group: TestGroup): TestFinding {
  const [first] = group
  const all = (pick: (e: LogEntry) => string | undefined) => {
    const words = [...new Set(group.map(pick).filter((w) => w !== undefined))]
    return words.length ? words.join('; ') : undefined
  }
  const optional = {
    place: first.place,
    condition: first.condition,
    trace: first.trace,
    fromS: first.fromS,
    toS: first.toS,
    outcome: all((e) => e.outcome),
    note: all((e) => e.note),
  }
  return {
    at: first.at,
    step: first.step,
    stage: first.stage,
    lines: group.map((e) => e.line),
    readings: group.filter((e) => e.reading !== undefined).map(readingOf),
    computed: {},
    finding: 'recorded',
    observed: false,
    says: [],
    ...Object.fromEntries(Object.entries(optional).filter(([, v]) => v !== undefined)),
  }
}

function readingOf(entry: LogEntry): TestFinding['readings'][number] {
  const { reading, value, unit, expectedLow, expectedHigh } = entry
  const finding = againstExpected(entry)
  const optional = { value, unit, expectedLow, expectedHigh, finding }
  return {
    reading: reading!,
    ...Object.fromEntries(Object.entries(optional).filter(([, v]) => v !== undefined)),
  }
}

type Measured = LogEntry & { value: number; unit: string; reading: string }
/** Rows with a reading, a figure and its unit. */
export const measuredRows = (group: TestGroup): Measured[] =>
  group.filter((e): e is Measured => e.value !== undefined && e.unit !== undefined && e.reading !== undefined)

/** A value against the vehicle maker's limits in the same unit; undefined where none are given. */
export function againstExpected(entry: {
  value?: number
  expectedLow?: number
  expectedHigh?: number
}): Finding | undefined {
  const { value, expectedLow, expectedHigh } = entry
  if (value === undefined || (expectedLow === undefined && expectedHigh === undefined)) return undefined
  const inside = value >= (expectedLow ?? -Infinity) && value <= (expectedHigh ?? Infinity)
  return inside ? 'in limits' : 'out of limits'
}

/** Side on which a value leaves the maker's limits. */
export const sideOf = (entry: { value?: number; expectedLow?: number }): 'low' | 'high' =>
  entry.expectedLow !== undefined && entry.value !== undefined && entry.value < entry.expectedLow
    ? 'low'
    : 'high'

/** Out of limits if any is; in limits if any is and none is out; recorded where nothing could be compared. */
export function worst(findings: readonly (Finding | undefined)[]): Finding {
  if (findings.includes('out of limits')) return 'out of limits'
  return findings.includes('in limits') ? 'in limits' : 'recorded'
}
