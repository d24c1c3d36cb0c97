import { makeRandom, type Random } from '../../src/maths/random.ts'
import type { DrawnCylinder, DrawnLine, DrawnSpeed, DrawnTraces } from '../../src/records/drawn-traces.ts'

/** Lines of an invented job, by formula alone; no capture stands behind them. */
export interface SampleDrawn {
  cylinders?: number
  /** Cylinder -> late rise in kV before the repair; the others are level. */
  rises?: Readonly<Record<number, number>>
  stages?: readonly ('before' | 'after')[]
  events?: number
  /** Places sprayed, in order; `response` where the name says so to the table below. */
  sprays?: readonly { place: string; finding: string }[]
  seed?: number
}

const BURN_MS = 1.5
const END_MS = 2.3
const POINTS = 120

/** One spark line, kV: firing line, level with a rise after the middle, hook, ring-down. */
function sparkLine(riseKv: number, startKv: number, random: Random): DrawnLine {
  const burn = BURN_MS * (1 + 0.03 * random.gaussian())
  const x: number[] = []
  const y: number[] = []
  for (let i = 0; i <= POINTS; i += 1) {
    const ms = END_MS * (i / POINTS) ** 1.3
    const share = ms / burn
    const burning =
      startKv -
      0.25 * Math.min(share, 0.5) +
      riseKv * Math.max(0, (share - 0.5) / 0.4) +
      (share > 0.95 ? 0.12 : 0)
    const ringing = 0.9 * Math.exp(-(ms - burn) / 0.35) * Math.cos(2 * Math.PI * 4.5 * (ms - burn))
    const firing = 8.5 * Math.exp(-ms / 0.012)
    x.push(ms)
    y.push((ms < burn ? burning : ringing) + firing + 0.04 * random.gaussian())
  }
  return { x, y }
}

/** Pointwise median of lines on one grid. */
function medianOf(lines: readonly DrawnLine[]): DrawnLine {
  const { x } = lines[0]!
  return { x, y: x.map((_, i) => lines.map((l) => l.y[i]!).toSorted((a, b) => a - b)[lines.length >> 1]!) }
}

function drawnCylinder(
  place: { cylinder: number; stage: 'before' | 'after' },
  riseKv: number,
  how: { events: number; random: Random },
): DrawnCylinder {
  const startKv = 1.45 + 0.1 * how.random.gaussian()
  const events = Array.from({ length: how.events }, () => sparkLine(riseKv, startKv, how.random))
  const median = medianOf(events)
  const at = (share: 10 | 50 | 90) => {
    const ms = BURN_MS * (share / 100)
    return { share, ms, kv: median.y[median.x.findIndex((x) => x >= ms)]! }
  }
  return {
    ...place,
    capture: `captures/idle-${place.stage}.csv`,
    events,
    median,
    marks: [at(10), at(50), at(90)],
    shown: how.events,
    of: how.events * 8,
  }
}

/** Idle speed that swings, with a lift after each spray that met a leak. */
function speedTrace(sprays: NonNullable<SampleDrawn['sprays']>, random: Random): DrawnSpeed {
  const placed = sprays.map((s, i) => ({ ...s, fromS: 12 + i * 16, toS: 15 + i * 16 }))
  const end = 24 + sprays.length * 16
  const x = Array.from({ length: 900 }, (_, i) => (i / 899) * end)
  const lift = (t: number) =>
    placed
      .filter((s) => s.finding === 'response' && t > s.fromS + 1)
      .reduce(
        (sum, s) => sum + 90 * (1 - Math.exp(-(t - s.fromS - 1))) * Math.exp(-Math.max(0, t - s.toS - 1) / 2),
        0,
      )
  return {
    file: 'traces/spray-1.csv',
    from: 'trace',
    stage: 'before',
    sprays: placed,
    line: {
      x,
      y: x.map((t) => 705 + 14 * Math.sin((2 * Math.PI * t) / 4.1) + 5 * random.gaussian() + lift(t)),
    },
  }
}

function eventSpeed(stage: 'before' | 'after', random: Random): DrawnSpeed {
  const x = Array.from({ length: 400 }, (_, i) => i * 0.1)
  const swing = stage === 'before' ? 22 : 6
  return {
    file: `captures/idle-${stage}.csv`,
    from: 'events',
    stage,
    sprays: [],
    line: { x, y: x.map((t) => 700 + swing * Math.sin((2 * Math.PI * t) / 3.7) + 6 * random.gaussian()) },
  }
}

const drawn = new Map<string, DrawnTraces>()

/**
 * Thinned lines of an invented job: spark lines of every cylinder and stage, speed of each capture, one spray trace. The
 * same wishes get the same lines, drawn once: nobody changes them.
 */
export function sampleDrawn(wishes: SampleDrawn = {}): DrawnTraces {
  const key = JSON.stringify(wishes)
  const known = drawn.get(key)
  if (known) return known
  const made = drawAll(wishes)
  drawn.set(key, made)
  return made
}

function drawAll({
  cylinders = 6,
  rises = { 5: 1.1 },
  stages = ['before', 'after'],
  events = 40,
  sprays,
  seed = 20_260_304,
}: SampleDrawn): DrawnTraces {
  const random = makeRandom(seed)
  const numbers = Array.from({ length: cylinders }, (_, i) => i + 1)
  const sparkLines = stages.flatMap((stage) =>
    numbers.map((cylinder) =>
      drawnCylinder({ cylinder, stage }, stage === 'before' ? (rises[cylinder] ?? 0) : 0, { events, random }),
    ),
  )
  const named = sprays ?? [
    { place: 'intake joint at cylinder 1', finding: 'no response' },
    { place: 'intake joint at cylinder 5', finding: 'response' },
    { place: 'hose to the brake servo', finding: 'no response' },
  ]
  return {
    sparkLines,
    speeds: [
      ...(named.length > 0 ? [speedTrace(named, random)] : []),
      ...stages.map((s) => eventSpeed(s, random)),
    ],
  }
}
