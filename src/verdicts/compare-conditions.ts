import { sentence } from '../texts/messages.ts'
import { CONDITION_WORDS } from '../job/job-words.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { Says } from '../test-log/findings.ts'

/** How a stage's captures were taken, as far as it bears on comparing two stages. */
export interface StageConditions {
  condition: string
  engine: 'warm' | 'cold'
  /** Mean engine speed, rpm; undefined where it could not be measured. */
  meanRpm: number | undefined
  sampleRateHz: number
  /** The secondary channels as one text: columns, units and scales. A change means another pickup or another setting. */
  pickup: string
  /** Recorder's step on the secondary, kV; 0 unknown. */
  quantumKv: number
}

/** A difference between before and after, and what it forbids. */
export interface ConditionChange {
  says: Says
  /** `all`: the stages cannot be compared; `voltage`: shifts of voltages in kV cannot; `none`: to be known, no more. */
  forbids: 'all' | 'voltage' | 'none'
}

const ENGINE = { warm: 'word.engine.warm', cold: 'word.engine.cold' } as const
const conditionArg = (condition: string) =>
  Object.hasOwn(CONDITION_WORDS, condition)
    ? sentence(CONDITION_WORDS[condition as keyof typeof CONDITION_WORDS])
    : condition

/** Steps further apart than this, as a ratio, are another recorder or another range; a step read off the samples is not exact. */
const SAME_STEP = 1.5

/**
 * What changed between the captures before and after besides the repair. Another load, temperature or speed changes
 * the mixture by itself; another pickup changes every voltage, but not a figure relative to the line's own height.
 */
export function compareConditions(
  before: StageConditions,
  after: StageConditions,
  limits: Limits,
): ConditionChange[] {
  const changes: ConditionChange[] = []
  const add = (forbids: ConditionChange['forbids'], says: Says) => changes.push({ says, forbids })
  if (before.condition !== after.condition)
    add(
      'all',
      sentence('conditions.condition', {
        before: conditionArg(before.condition),
        after: conditionArg(after.condition),
      }),
    )
  if (before.engine !== after.engine)
    add(
      'all',
      sentence('conditions.engine', {
        before: sentence(ENGINE[before.engine]),
        after: sentence(ENGINE[after.engine]),
      }),
    )
  if (before.meanRpm !== undefined && after.meanRpm !== undefined) {
    const changePct = 100 * (after.meanRpm / before.meanRpm - 1)
    const limitPct = limit(limits, 'comparableSpeedPct')
    if (Math.abs(changePct) > limitPct) {
      add(
        'all',
        sentence('conditions.speed', {
          before: Math.round(before.meanRpm),
          after: Math.round(after.meanRpm),
          limitPct,
        }),
      )
    }
  }
  if (before.pickup !== after.pickup)
    add('voltage', sentence('conditions.pickup', { before: before.pickup, after: after.pickup }))
  const rateRatio = after.sampleRateHz / before.sampleRateHz
  if (rateRatio > 1.01 || rateRatio < 0.99) {
    add(
      'voltage',
      sentence('conditions.rate', {
        before: Math.round(before.sampleRateHz),
        after: Math.round(after.sampleRateHz),
      }),
    )
  }
  if (before.quantumKv > 0 && after.quantumKv > 0) {
    const stepRatio = after.quantumKv / before.quantumKv
    if (stepRatio > SAME_STEP || stepRatio < 1 / SAME_STEP) {
      add('voltage', sentence('conditions.steps', { before: before.quantumKv, after: after.quantumKv }))
    }
  }
  return changes
}
