import type { TestFinding } from '../../src/test-log/findings.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { drawIdle, peakOf, simulateSpeed, type IdleKind } from './simulate-speed.ts'
import { readLog, speedRecording } from './test-log.ts'

/** One simulated trace on which ports are closed and opened again, one after the other; all of it invented. */
export interface CapTrial {
  kind: IdleKind
  seed: number
  /** Idle before, while closed, and after opening, s. */
  restS: number
  /** Ports closed in turn; those in `draws` change the speed by so much and the swing by that factor while closed. */
  ports: readonly string[]
  draws: Readonly<Record<string, { rpm: number; swing: number }>>
  /** Fixes the swing of the idle, rpm each way; drawn where left out. */
  swingRpm?: number
  /** The port is closed at the end and stays so. */
  left?: true
}

export interface CapResult {
  tests: TestFinding[]
  /** Largest change of speed each closing really made, rpm, and the change of the root mean square about its line, %. */
  trueRpm: readonly number[]
  trueSwingPct: readonly number[]
}

const FILE = 'traces/caps.csv'
const HEAD = 'at,step,place,trace,from_s,to_s,outcome'

/** Simulates the trace, and reads the log with it as a report would. */
export function runCapTrial({ kind, seed, restS, ports, draws, swingRpm, left }: CapTrial): CapResult {
  const random = makeRandom(seed + 6151)
  const times = ports.map((place, i) => {
    const play = 2 * random.uniform()
    const fromS = restS * (2 * i + 1) + play
    return { place, fromS, toS: left ? undefined : fromS + restS }
  })
  const seconds = restS * (2 * ports.length + (left ? 0 : 1)) + 3
  const closed = times.map((t) => {
    const { rpm, swing } = draws[t.place] ?? { rpm: 0, swing: 1 }
    return { fromS: t.fromS, toS: t.toS ?? seconds, rpm, swing }
  })
  const drawn = drawIdle(kind, { seconds, seed: seed + 7919, responses: [] })
  const idle = { ...drawn, ...(swingRpm === undefined ? {} : { swingRpm }), closed }
  const { rpm } = simulateSpeed(idle, seed + 104729)
  const rows = times.map(
    ({ place, fromS, toS }, i) =>
      `2026-03-04T09:${String(10 + i)}:00Z,cap,${place},${FILE},${fromS.toFixed(2)},${toS?.toFixed(2) ?? ''},`,
  )
  const { tests, problems } = readLog([HEAD, ...rows].join('\n'), {
    recordings: [speedRecording(FILE, rpm, 1 / idle.rateHz)],
  })
  if (problems.length > 0) throw new Error(`invented log refused: ${problems.map((p) => p.code).join(', ')}`)
  return {
    tests,
    trueRpm: closed.map((c) =>
      c.rpm === 0
        ? 0
        : peakOf({ ...idle, closed: [] }, { fromS: c.fromS, lateS: 0, lastsS: c.toS - c.fromS, rpm: c.rpm }),
    ),
    trueSwingPct: closed.map((c) => {
      const swing = (idle.swingRpm ** 2 / 2) * (1 + idle.secondHarmonic ** 2)
      const noise = idle.noiseRpm ** 2 + idle.readingRpm ** 2
      return 100 * (Math.sqrt((swing * c.swing ** 2 + noise) / (swing + noise)) - 1)
    }),
  }
}
