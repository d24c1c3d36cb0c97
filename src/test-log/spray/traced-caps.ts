import { limit, type Limits } from '../../limits/limits.ts'
import type { Interval } from '../../units/measured.ts'
import { ownWords, sentence, type TextKey } from '../../texts/messages.ts'
import type { Addition } from '../addition.ts'
import type { Finding, Says, TestFinding } from '../findings.ts'
import { CAPPED, OPENED, readOutcome } from '../outcome-words.ts'
import type { Effect } from './effect-interval.ts'
import { judgeTogether, type CountingSpray, type JudgedSpray } from './judge-places.ts'
import type { Spoilt } from './read-sprays.ts'
import type { UnreadTrace } from './read-trace.ts'
import type { WindowScan } from './scan-window.ts'
import { spansOf, swingChange, type ClosedSpan, type SwingChange } from './swing-change.ts'
import { sprayLimits } from './traced-sprays.ts'
import { isRead, tracesOf, type ReadEvent, type TraceEvent } from './trace-events.ts'

/** What the traces say of one row that closed or opened a port. */
export interface TracedCap {
  addition: Addition
  finding: Extract<Finding, 'response' | 'no response' | 'unclear'>
  pValue: number | undefined
}

/** Ports closed and opened on a trace: `cap` from `from_s`, opened at `to_s` or by an `uncap` with its own `from_s`. */
export const capEvents = (tests: readonly TestFinding[]): TraceEvent[] =>
  tests.flatMap((test, index): TraceEvent[] => {
    const { step, stage, place, trace, fromS, toS } = test
    if ((step !== 'cap' && step !== 'uncap') || trace === undefined || fromS === undefined) return []
    const event = { index, trace, key: JSON.stringify([stage, place]) }
    const first = {
      ...event,
      kind: step === 'cap' ? ('close' as const) : ('open' as const),
      fromS,
      toS: fromS,
    }
    return step === 'cap' && toS !== undefined
      ? [first, { ...event, kind: 'open', fromS: toS, toS }]
      : [first]
  })

/**
 * Judges every port closed or opened on a trace. Closing and opening are two events of one place, the second one
 * turned round: what closing takes away, opening gives back. The mean speed is tested as a spray's; besides, whether
 * the idle swings otherwise. All ports of a stage, both tests of each, are corrected together.
 *
 * @param read  every event of every trace
 */
export function judgeTracedCaps(
  tests: readonly TestFinding[],
  read: readonly ReadEvent[],
  limits: Limits,
): Map<number, TracedCap> {
  return new Map(
    (['before', 'after'] as const).flatMap((stage) => {
      const events = read.filter(({ event }) => event.kind !== 'spray' && tests[event.index]!.stage === stage)
      return [...judgeStage(events, read, { tests, limits })]
    }),
  )
}

function judgeStage(
  events: readonly ReadEvent[],
  all: readonly ReadEvent[],
  { tests, limits }: { tests: readonly TestFinding[]; limits: Limits },
): Map<number, TracedCap> {
  const keys = [...new Set(events.map((e) => e.event.key))]
  const swings = keys.map((key) =>
    swingChange(
      closedSpans(
        events.filter((e) => e.event.key === key),
        all,
      ),
    ),
  )
  const { judged, beside } = judgeTogether(events.flatMap(counting), tracesOf(events), {
    limits: sprayLimits(limits),
    beside: swings.flatMap((s) => s?.p ?? []),
  })
  const corrected = [...beside]
  const ports = keys.map((key, i): Port => {
    const swing = swings[i]
    return {
      events: events.filter((e) => e.event.key === key),
      speed: judged.filter((j) => events[j.id]!.event.key === key),
      swing: swing && { ...swing, p: corrected.shift()! },
      tried: keys.length,
    }
  })
  return new Map(ports.flatMap((port) => ofPort(port, tests, limits)))

  /** The id of an event is its place in the list. An opening is turned round. */
  function counting(read: ReadEvent): CountingSpray[] {
    if (!isRead(read.trace)) return []
    const seen = read.trace.sprays[read.at]!
    if (seen.spoilt) return []
    const isOpen = read.event.kind === 'open'
    return [
      {
        id: events.indexOf(read),
        place: read.event.key,
        trace: read.file,
        scan: isOpen ? turned(seen.scan) : seen.scan,
        effect: isOpen ? turnedEffect(seen.effect) : seen.effect,
      },
    ]
  }
}

const turned = ({ up, down }: WindowScan): WindowScan => ({
  up: { ...down, rpm: -down.rpm },
  down: { ...up, rpm: -up.rpm },
})
const turnedEffect = ({ change: { value, low, high, unit }, onset }: Effect): Effect => ({
  change: { value: -value, low: -high, high: -low, unit },
  onset,
})

/** Each time the port was closed on a trace, with the idle beside it. */
function closedSpans(events: readonly ReadEvent[], all: readonly ReadEvent[]): ClosedSpan[] {
  return events.flatMap((closing): ClosedSpan[] => {
    const { event, file, trace } = closing
    if (event.kind !== 'close' || !isRead(trace)) return []
    const on = all.filter((e) => e.file === file)
    const opening = on
      .filter((e) => e.event.key === event.key && e.event.kind === 'open' && e.event.fromS > event.fromS)
      .sort((a, b) => a.event.fromS - b.event.fromS)[0]
    return [
      spansOf(event.fromS, opening?.event.fromS, {
        grid: trace.grid,
        quiet: trace.calm,
        changesS: on.flatMap((e) =>
          e.event.kind === 'spray' ? [e.event.fromS, e.event.toS + SPRAY_TAIL_S] : [e.event.fromS],
        ),
      }),
    ]
  })
}
/** What a spray leaves in the idle after its end, s. */
const SPRAY_TAIL_S = 7

/** All that was seen of one port in one stage. */
interface Port {
  events: readonly ReadEvent[]
  speed: readonly JudgedSpray[]
  swing: SwingChange | undefined
  /** Ports of the stage. */
  tried: number
}

function ofPort(port: Port, tests: readonly TestFinding[], limits: Limits): [number, TracedCap][] {
  const indices = [...new Set(port.events.map((e) => e.event.index))]
  const { place = '' } = tests[indices[0]!]!
  const first = port.speed[0]
  const change = first && (first.together ?? first.change)
  const { finding, by } = findingOf(port, limits)
  const ps = [...port.speed.flatMap((j) => j.p ?? []), ...(port.swing ? [port.swing.p] : [])]
  const pValue = ps.length ? Math.min(...ps) : undefined
  // An idle that swings otherwise is no longer the one its swing was predicted from: its mean speed cannot be told apart.
  const told = by === 'swing' ? undefined : change
  const computed = {
    ...(told ? { change: told } : {}),
    ...(port.swing ? { swingChange: port.swing.change } : {}),
  }
  return indices.map((index): [number, TracedCap] => [
    index,
    {
      finding,
      pValue,
      addition: {
        index,
        computed,
        says: [
          ...saysOf({ finding, by, place, change, swing: port.swing }, port),
          ...(pValue === undefined ? [] : [sentence('tests.cap.basis', { p: pValue, ports: port.tried })]),
          ...earSays(finding, tests[index]!),
        ],
        ...effectOf(told, port.swing),
      },
    },
  ])
}

const effectOf = (change: Interval | undefined, swing: SwingChange | undefined) => {
  const effect = change ?? swing?.change
  return effect ? { effect } : {}
}

type By = 'speed' | 'swing' | undefined

/** An answer of speed or of swing is an answer; that there is none needs both free of one that would be worth finding. */
function findingOf({ speed, swing }: Port, limits: Limits): { finding: TracedCap['finding']; by: By } {
  if (speed.some((j) => j.finding === 'response') && !speed.some((j) => j.why === 'contradictory'))
    return { finding: 'response', by: 'speed' }
  const isSwing =
    swing !== undefined &&
    swing.p <= limit(limits, 'sprayLevel') * (1 + 1e-9) &&
    Math.abs(swing.change.value) >= limit(limits, 'capSwingLeastPct')
  if (isSwing) return { finding: 'response', by: 'swing' }
  const silent = speed.length > 0 && speed.every((j) => j.finding === 'no response')
  return { finding: silent && isFree(swing, limits) ? 'no response' : 'unclear', by: undefined }
}

/** A swing cut by as much as would count for a cure is excluded, and so is one that grew as much. */
function isFree(swing: SwingChange | undefined, limits: Limits): boolean {
  if (swing === undefined) return true
  const cut = limit(limits, 'capSwingExcludePct')
  return swing.change.low > -cut && swing.change.high < 100 * (100 / (100 - cut) - 1)
}

function saysOf(
  it: {
    finding: TracedCap['finding']
    by: By
    place: string
    change: Interval | undefined
    swing: SwingChange | undefined
  },
  { events, speed }: Port,
): Says[] {
  const place = ownWords(it.place)
  if (it.finding === 'response' && it.by === 'swing')
    return [sentence('tests.cap.traced-swing', { place, swing: it.swing!.change })]
  if (it.finding === 'response') return [sentence('tests.cap.traced-speed', { place, change: it.change! })]
  if (it.change !== undefined && speed.some((j) => j.p !== undefined))
    return [
      sentence(it.finding === 'no response' ? 'tests.cap.traced-none' : 'tests.cap.traced-unclear', {
        place,
        change: it.change,
      }),
      ...(it.swing ? [sentence('tests.cap.traced-swung', { swing: it.swing.change })] : []),
    ]
  const why = events.map((e): Spoilt | UnreadTrace['why'] =>
    isRead(e.trace) ? (e.trace.sprays[e.at]!.spoilt ?? 'too-short') : e.trace.why,
  )[0]
  return [sentence(SPOILT[why ?? 'too-short'], { place })]
}

const SPOILT = {
  early: 'tests.cap.spoilt-early',
  throttle: 'tests.cap.spoilt-throttle',
  'too-soon': 'tests.cap.spoilt-short',
  'off-trace': 'tests.cap.spoilt-short',
  'too-slow': 'tests.cap.spoilt-slow',
  'too-short': 'tests.cap.spoilt-short',
} as const satisfies Record<Spoilt | UnreadTrace['why'], TextKey>

/** Where ear and trace disagree, both are shown. */
function earSays(finding: TracedCap['finding'], { step, outcome }: TestFinding): Says[] {
  const answer = readOutcome(outcome, step === 'cap' ? CAPPED : OPENED)
  const heard = answer && (answer === 'yes' ? 'response' : 'no response')
  const differs = heard !== undefined && finding !== 'unclear' && heard !== finding
  return differs ? [sentence('tests.spray.ear-differs', { outcome: ownWords(outcome!) })] : []
}
