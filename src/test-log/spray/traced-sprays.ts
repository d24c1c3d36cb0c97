import { sentence, ownWords } from '../../texts/messages.ts'
import type { TextKey } from '../../texts/messages.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Addition } from '../addition.ts'
import type { Finding, Says, TestFinding } from '../findings.ts'
import { ANSWER, readOutcome } from '../outcome-words.ts'
import { judgePlaces, type CountingSpray, type JudgedSpray, type SprayLimits } from './judge-places.ts'
import type { Spoilt } from './read-sprays.ts'
import type { UnreadTrace } from './read-trace.ts'
import { isRead, tracesOf, type ReadEvent, type TraceEvent } from './trace-events.ts'

/** What the traces say about one spray test. */
export interface TracedSpray {
  addition: Addition
  finding: Finding
  pValue: number | undefined
}

/**
 * Sprays with a trace. Sprays of one place, stage and state of the caps are repeats and count together; a place sprayed
 * with a port capped is another test than without.
 *
 * @param cappedAt  ports capped at the time of a test, by its index
 */
export const sprayEvents = (
  tests: readonly TestFinding[],
  cappedAt: readonly (readonly string[])[],
): TraceEvent[] =>
  tests.flatMap((test, index): TraceEvent[] => {
    const { step, trace, fromS, toS } = test
    if (step !== 'spray' || trace === undefined || fromS === undefined || toS === undefined) return []
    const key = JSON.stringify([test.stage, test.place, cappedAt[index]])
    return [{ index, kind: 'spray', trace, fromS, toS, key }]
  })

/**
 * Judges every spray with a trace.
 *
 * @param read  every event of every trace
 */
export function judgeTracedSprays(
  tests: readonly TestFinding[],
  read: readonly ReadEvent[],
  limits: Limits,
): Map<number, TracedSpray> {
  const sprays = read.filter((r) => r.event.kind === 'spray')
  const judged = new Map(
    judgePlaces(sprays.flatMap(countingSpray), tracesOf(sprays), sprayLimits(limits)).map((j) => [j.id, j]),
  )
  return new Map(
    sprays.map((s) => {
      const { index } = s.event
      return [index, describe({ index, test: tests[index]! }, s, judged.get(index))]
    }),
  )
}

export const sprayLimits = (limits: Limits): SprayLimits => ({
  level: limit(limits, 'sprayLevel'),
  shuffledLevel: limit(limits, 'sprayShuffledLevel'),
  minStretches: limit(limits, 'sprayMinStretches'),
  leastRpm: limit(limits, 'sprayLeastRpm'),
  excludeRpm: limit(limits, 'sprayExcludeRpm'),
})

function countingSpray({ event, file, trace, at }: ReadEvent): CountingSpray[] {
  if (!isRead(trace)) return []
  const seen = trace.sprays[at]!
  return seen.spoilt
    ? []
    : [{ id: event.index, place: event.key, trace: file, scan: seen.scan, effect: seen.effect }]
}

function describe(
  spray: { index: number; test: TestFinding },
  from: ReadEvent,
  judged: JudgedSpray | undefined,
): TracedSpray {
  const { index, test } = spray
  const place = test.place ?? ''
  if (!isRead(from.trace)) return spoiltSpray(index, from.trace.why, place)
  const { spoilt } = from.trace.sprays[from.at]!
  if (!judged || spoilt) return spoiltSpray(index, spoilt ?? 'too-short', place)
  const { stepS } = from.trace
  const { value, low, high } = judged.onset
  const latency = {
    value: value * stepS,
    low: Math.max(0, low * stepS - from.blurS),
    high: high * stepS + from.blurS,
    unit: 's' as const,
  }
  const computed = {
    change: judged.change,
    ...(judged.finding === 'response' ? { latency } : {}),
    ...(judged.together ? { changeTogether: judged.together } : {}),
    stretches: { value: judged.stretches, low: judged.stretches, high: judged.stretches, unit: '1' as const },
  }
  const says = [
    verdictSays(judged, { place, latency: latency.value }),
    ...caveatSays(judged),
    ...basisSays(judged),
    ...outcomeSays(judged.finding, test),
  ]
  return {
    addition: { index, says, computed, effect: judged.change },
    finding: judged.finding,
    pValue: judged.p,
  }
}

const SPOILT = {
  early: 'tests.spray.spoilt-early',
  throttle: 'tests.spray.spoilt-throttle',
  'too-soon': 'tests.spray.spoilt-too-soon',
  'off-trace': 'tests.spray.spoilt-off-trace',
  'too-slow': 'tests.spray.spoilt-too-slow',
  'too-short': 'tests.spray.spoilt-too-short',
} as const satisfies Record<Spoilt | UnreadTrace['why'], TextKey>

function spoiltSpray(index: number, why: Spoilt | UnreadTrace['why'], place: string): TracedSpray {
  return {
    addition: { index, says: [sentence(SPOILT[why], { place: ownWords(place) })] },
    finding: 'unclear',
    pValue: undefined,
  }
}

function verdictSays(judged: JudgedSpray, { place, latency }: { place: string; latency: number }): Says {
  const change = judged.together ?? judged.change
  if (judged.finding === 'response') {
    return sentence(change.value >= 0 ? 'tests.spray.response-up' : 'tests.spray.response-down', {
      place: ownWords(place),
      change,
      latency,
    })
  }
  if (judged.finding === 'no response')
    return sentence(judged.certain ? 'tests.spray.small' : 'tests.spray.no-response', {
      place: ownWords(place),
      change,
    })
  return judged.why === 'too-few'
    ? sentence('tests.spray.too-few', { place: ownWords(place), longerS: judged.longerS })
    : sentence('tests.spray.unclear', { place: ownWords(place), change })
}

/** What silence does not show. */
const caveatSays = (judged: JudgedSpray): Says[] =>
  judged.finding === 'no response' && !judged.certain ? [sentence('tests.spray.caveat')] : []

/** What the probability rests on. */
function basisSays(judged: JudgedSpray): Says[] {
  const { p, shuffledP, stretches, places, repeats, longerS, why, finding } = judged
  if (p === undefined) return []
  const says: Says[] = []
  if (repeats > 1) says.push(sentence('tests.spray.repeats', { repeats }))
  if (why === 'contradictory') says.push(sentence('tests.spray.contradictory'))
  says.push(sentence(places > 1 ? 'tests.spray.basis-places' : 'tests.spray.basis', { p, stretches, places }))
  if (finding !== 'unclear') return says
  if (longerS > 0) says.push(sentence('tests.spray.basis-short', { longerS }))
  else if (shuffledP > p) says.push(sentence('tests.spray.basis-guarded', { p: shuffledP }))
  return says
}

/** Where ear and trace disagree, both are shown. */
function outcomeSays(finding: Finding, test: TestFinding): Says[] {
  const answer = readOutcome(test.outcome, ANSWER)
  const heard: Finding | undefined = answer && (answer === 'yes' ? 'response' : 'no response')
  const differs = heard !== undefined && finding !== 'unclear' && heard !== finding
  return differs ? [sentence('tests.spray.ear-differs', { outcome: ownWords(test.outcome!) })] : []
}
