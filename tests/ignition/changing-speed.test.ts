import { describe, expect, test } from 'vitest'
import { assignCylinders } from '../../src/ignition/assign-cylinder.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { readFirstOf } from '../support/fixture-captures.ts'
import { scoreEvents } from '../support/score-events.ts'

/**
 * Engines whose speed is known at every instant, turned by numerical integration of it: which cylinder fires when is
 * known without the program. Pulses stand anywhere within 0.4 of a firing interval of their cylinder, with jitter, some
 * missing, some extra; a cylinder may miss often, and other firings now and then.
 */
const ORDERS = [
  [1, 2, 3],
  [1, 3, 4, 2],
  [1, 2, 4, 5, 3],
  [1, 5, 3, 6, 2, 4],
  [1, 8, 4, 3, 6, 5, 7, 2],
]
const STEP_S = 1e-4

type Speed = (atS: number) => number

function speedOf(kind: string, random: Random): Speed {
  const between = (low: number, high: number) => low + (high - low) * random.uniform()
  const [meanRpm, swingRpm, periodS, phase] = [
    between(650, 950),
    between(50, 300),
    between(0.3, 4),
    between(0, 2 * Math.PI),
  ]
  const crankedS = between(0.5, 2)
  const wave = (s: number) => Math.sin(s + phase) + 0.3 * Math.sin(2 * s + phase)
  const speeds: Record<string, Speed> = {
    hunts: (t) => Math.max(350, meanRpm + swingRpm * wave((2 * Math.PI * t) / periodS)),
    starts: (t) =>
      t < crankedS
        ? 180 + 60 * Math.sin(9 * t)
        : Math.min(180 + 5000 * (t - crankedS), 880 + 500 * Math.exp((crankedS - t) / 0.5)),
    'is blipped': (t) =>
      meanRpm + Math.min(Math.max(0, t - 1.5) * 7000, 2100 * Math.exp(-Math.max(0, t - 1.8) / 0.5)),
    snaps: (t) => meanRpm + Math.min(3500, Math.max(0, t - 1.5) * 6000),
  }
  return speeds[kind]!
}

function turn(kind: string, seed: number) {
  const random = makeRandom(seed)
  const order = ORDERS[random.integer(ORDERS.length)]!
  const n = order.length
  const rpm = speedOf(kind, random)
  const pulseAt = 0.8 * (random.uniform() - 0.5)
  const pulseLost = random.uniform() < 0.4 ? 0.15 * random.uniform() : 0
  const extraPerCycle = random.uniform() < 0.3 ? 0.1 * random.uniform() : 0
  const weak = random.uniform() < 0.2 ? random.integer(n) : -1
  const [timesS, who, pulsesS]: [number[], number[], number[]] = [[], [], []]
  let turned = n * random.uniform()
  let [next, pulse] = [Math.ceil(turned), Math.ceil((turned - pulseAt) / n) * n + pulseAt]
  for (let t = 0; t < 4; t += STEP_S) {
    const perS = (rpm(t) / 120) * n
    turned += perS * STEP_S
    if (turned >= pulse) {
      if (random.uniform() >= pulseLost) pulsesS.push(t + (0.01 * random.gaussian()) / perS)
      pulse += n
    }
    if (turned >= next) {
      const place = next % n
      if (!(place === weak && random.uniform() < 0.5) && random.uniform() > 0.01) {
        timesS.push(t + (0.004 * random.gaussian()) / perS)
        who.push(order[place]!)
      }
      next += 1
    }
    if (random.uniform() < (extraPerCycle * perS * STEP_S) / n) pulsesS.push(t)
  }
  const pulses = pulsesS.toSorted((a, b) => a - b).map((atS) => ({ atS, state: 'seen' as const }))
  const told = assignCylinders({ timesS, pulses, firingOrder: order, syncCylinder: order[0]!, seen: order })
  return { told, who }
}

describe('cylinders are told while the engine', () => {
  test.each(['hunts', 'starts', 'is blipped', 'snaps'])('%s', (kind) => {
    let [all, untold] = [0, 0]
    for (let seed = 1; seed <= 15; seed++) {
      const { told, who } = turn(kind, seed)
      expect(told.lost, `seed ${seed}`).toBeUndefined()
      told.cylinders.forEach((cylinder, i) => {
        all += 1
        if (cylinder === undefined) untold += 1
        else expect(cylinder, `seed ${seed}, event ${i}`).toBe(who[i])
      })
    }
    expect(untold / all).toBeLessThan(0.01)
  })
})

/** Truth: circuit simulation, see tests/support/fixture-captures.ts. */
test.each(['02-four-lean-hunt-0.5s', '08-four-level-hunt-clamp', '31-four-engine-off-then-idle'] as const)(
  'every cylinder of %s is right',
  async (name) => {
    const { engine, capture, truth } = await readFirstOf(name)
    const score = scoreEvents(findEvents(capture, engine), capture, truth)
    expect(score).toMatchObject({ missed: [], wrongCylinder: 0, untold: 0 })
  },
)
