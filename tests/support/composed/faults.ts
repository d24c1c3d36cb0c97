import type { Dice } from './dice.ts'
import { allOf, banksOf, type ComposedEngine } from './engines.ts'
import { HEALTHY, type CylinderWave } from './wave.ts'

/**
 * What is truly wrong, and what an engine with it shows. Effect sizes are what a workshop sees, stated without the
 * program's table of causes in sight; common practice, no source.
 */
export const faultKinds = [
  'throttle gasket',
  'vacuum hose',
  'breather hose',
  'brake servo hose',
  'manifold gasket',
  'runner joint',
  'fuel pressure low',
  'injector leaking',
  'injector restricted',
  'valve',
  'open lead',
  'coil',
  'worn plugs',
] as const
export type FaultKind = (typeof faultKinds)[number]

export interface Fault {
  kind: FaultKind
  /** Cylinders that burn otherwise for it. */
  cylinders: readonly number[]
  /** The cause of the program's table that is meant. */
  cause: string
  /** The technician's word for the place, as the log has it. */
  place: string
  /** Words that may stand for kind or place in a headline or on page one. */
  named: RegExp
  /** A leak so small that the spark lines stand at the limit. */
  small: boolean
}

/** What the engine shows with these faults. Trims are sums of short and long term, %. */
export interface EngineFacts {
  cylinders: Map<number, CylinderWave>
  /** By bank: at idle and at 2500 rpm. */
  trims: Map<string, { idle: number; at2500: number }>
  vacuumInHg: number
  compressionBar: Map<number, number>
  pressureBar: { keyOn: number; idle: number; hold: number }
  gas: { CO: number; CO2: number; HC: number; O2: number }
  codes: string[]
  swingRpm: number
  /** Places where spray raises the speed, capping settles it (hoses only) and smoke comes out. */
  leaks: Fault[]
}

const LEAN_WORDS = /lean|leak|too much air|unmetered/i
const at = (cylinder: number) => new RegExp(`\\b${cylinder}\\b`)

interface Kind {
  cause: string
  weight: number
  only?: (engine: ComposedEngine) => boolean
  where: (engine: ComposedEngine, dice: Dice) => readonly number[]
  place: (dice: Dice, cylinders: readonly number[], engine: ComposedEngine) => string
  named: (cylinders: readonly number[]) => RegExp
}

const one = (engine: ComposedEngine, dice: Dice) => [dice.pick(allOf(engine))]
const bankOfAll = (engine: ComposedEngine, cylinders: readonly number[]) =>
  banksOf(engine).find((b) => b.cylinders.includes(cylinders[0]!))!.bank

export const KINDS: Readonly<Record<FaultKind, Kind>> = {
  'throttle gasket': {
    cause: 'leak-throttle-body',
    weight: 3,
    where: allOf,
    place: (dice) =>
      dice.pick(['throttle body gasket', 'throttle gasket', 'TB to plenum joint', 'TB gasket']),
    named: () => LEAN_WORDS,
  },
  'vacuum hose': {
    cause: 'leak-vacuum-hose',
    weight: 3,
    where: allOf,
    place: (dice) => dice.pick(['vacuum hose', 'vacuum tee', 'vac hose', 'vacuum line']),
    named: () => LEAN_WORDS,
  },
  'breather hose': {
    cause: 'leak-crankcase-ventilation',
    weight: 2,
    where: allOf,
    place: (dice) => dice.pick(['PCV hose', 'breather hose', 'crankcase breather']),
    named: () => LEAN_WORDS,
  },
  'brake servo hose': {
    cause: 'leak-brake-booster',
    weight: 2,
    where: allOf,
    place: (dice) => dice.pick(['brake servo hose', 'servo hose', 'brake booster hose']),
    named: () => LEAN_WORDS,
  },
  'manifold gasket': {
    cause: 'leak-manifold',
    weight: 3,
    where: (engine, dice) => dice.pick(banksOf(engine)).cylinders,
    place: (dice, cylinders, engine) => {
      if (!engine.banks)
        return dice.pick(['intake manifold gasket', 'intake manifold', 'inlet manifold gasket'])
      const bank = bankOfAll(engine, cylinders)
      return dice.pick([
        `intake manifold gasket bank ${bank}`,
        `manifold gasket bank ${bank}`,
        `inlet mani B${bank}`,
      ])
    },
    named: () => LEAN_WORDS,
  },
  'runner joint': {
    cause: 'leak-runner-joint',
    weight: 3,
    where: one,
    place: (dice, [c]) =>
      dice.pick([`runner ${c} joint`, `runner joint cylinder ${c}`, `runner joint cyl. ${c}`]),
    named: () => LEAN_WORDS,
  },
  'fuel pressure low': {
    cause: 'fuel-delivery-low',
    weight: 3,
    where: allOf,
    place: (dice) => dice.pick(['fuel pump', 'fuel filter']),
    named: () => /fuel|lean|pump|pressure/i,
  },
  'injector leaking': {
    cause: 'injector-leaking',
    weight: 2,
    where: one,
    place: (_, [c]) => `injector ${c}`,
    named: () => /rich|too much fuel|injector|falling|falls/i,
  },
  'injector restricted': {
    cause: 'injector-restricted',
    weight: 2,
    where: one,
    place: (_, [c]) => `injector ${c}`,
    named: () => /lean|injector/i,
  },
  valve: {
    cause: 'compression-loss',
    weight: 3,
    where: one,
    place: (dice, [c]) => dice.pick([`exhaust valve cylinder ${c}`, `cylinder head, valve ${c}`]),
    named: () => /compression|falling|falls|hold (its|their) pressure/i,
  },
  'open lead': {
    cause: 'secondary-cylinder',
    weight: 2,
    only: ({ ignition }) => ignition === 'distributor',
    where: one,
    place: (dice, [c]) => dice.pick([`plug lead ${c}`, `lead cylinder ${c}`]),
    named: () => /open|no spark|misfir|circuit/i,
  },
  coil: {
    cause: 'secondary-cylinder',
    weight: 3,
    only: ({ ignition }) => ignition === 'coil-per-cylinder',
    where: one,
    place: (dice, [c]) => dice.pick([`coil ${c}`, `coil cylinder ${c}`]),
    named: () => /open|no spark|misfir|circuit/i,
  },
  'worn plugs': {
    cause: 'plug-worn',
    weight: 2,
    where: allOf,
    place: (dice) => dice.pick(['spark plugs', 'plugs']),
    named: () => /plug|firing|voltage/i,
  },
}

/** Kinds that a spray can find. */
export const LEAKS: readonly FaultKind[] = faultKinds.filter((kind) => KINDS[kind].cause.startsWith('leak-'))
/** Of them those that can be capped. */
export const HOSES: readonly FaultKind[] = ['vacuum hose', 'breather hose', 'brake servo hose']

export function drawFault(
  engine: ComposedEngine,
  dice: Dice,
  among: readonly FaultKind[] = faultKinds,
): Fault {
  const kind = dice.weighed(
    among.filter((k) => KINDS[k].only?.(engine) ?? true).map((k) => [k, KINDS[k].weight] as const),
  )
  const cylinders = KINDS[kind].where(engine, dice)
  return {
    kind,
    cylinders,
    cause: KINDS[kind].cause,
    place: KINDS[kind].place(dice, cylinders, engine),
    named: KINDS[kind].named(cylinders),
    small: LEAKS.includes(kind) && dice.chance(0.08),
  }
}

/** Whether a text names the fault: its kind, and its cylinder where it is one cylinder's. */
export const names = (text: string, fault: Fault, engine: ComposedEngine): boolean =>
  fault.named.test(text) &&
  (fault.cylinders.length > 1 || engine.cylinders === 1 || at(fault.cylinders[0]!).test(text))

/** What an engine shows that has these faults and no other. */
export function factsOf(engine: ComposedEngine, faults: readonly Fault[], dice: Dice): EngineFacts {
  const facts = healthyFacts(engine, dice)
  for (const fault of faults) EFFECTS[fault.kind](facts, fault, dice, engine)
  return facts
}

function healthyFacts(engine: ComposedEngine, dice: Dice): EngineFacts {
  const kv = dice.between(8.5, 10.5)
  const mid = dice.between(1.75, 2.15)
  return {
    cylinders: new Map(
      allOf(engine).map((c) => [
        c,
        {
          ...HEALTHY,
          latePct: dice.between(-2, 6),
          firingKv: kv + dice.between(-0.3, 0.3),
          midKv: mid * dice.between(0.98, 1.02),
          burnMs: 1.45 * dice.between(0.98, 1.02),
        },
      ]),
    ),
    trims: new Map(
      banksOf(engine).map(({ bank }) => [bank, { idle: dice.between(0, 4), at2500: dice.between(0, 3) }]),
    ),
    vacuumInHg: dice.between(18.5, 20),
    compressionBar: new Map(allOf(engine).map((c) => [c, dice.between(11.8, 12.4)])),
    pressureBar: {
      keyOn: dice.between(2.95, 3.05),
      idle: dice.between(2.9, 3),
      hold: dice.between(2.85, 2.95),
    },
    gas: { CO: 0.2, CO2: 14.9, HC: 60, O2: 0.4 },
    codes: [],
    swingRpm: dice.between(5, 15),
    leaks: [],
  }
}

type Effect = (facts: EngineFacts, fault: Fault, dice: Dice, engine: ComposedEngine) => void

const change = (
  facts: EngineFacts,
  cylinders: readonly number[],
  to: (c: CylinderWave) => Partial<CylinderWave>,
) => {
  for (const c of cylinders) {
    const was = facts.cylinders.get(c)!
    facts.cylinders.set(c, { ...was, ...to(was) })
  }
}
const addTrim = (facts: EngineFacts, idle: number, at2500: number, banks?: readonly string[]) => {
  for (const [bank, trim] of facts.trims)
    if (!banks || banks.includes(bank))
      facts.trims.set(bank, { idle: trim.idle + idle, at2500: trim.at2500 + at2500 })
}
const leanCode = (bank: string) => (bank === '2' ? 'P0174' : 'P0171')

/** All cylinders lean at idle, less above it; the idle may hunt; vacuum down. */
const sharedLeak: Effect = (facts, fault, dice) => {
  const late = fault.small ? dice.between(17, 21) : dice.between(32, 42)
  change(facts, fault.cylinders, () => ({ latePct: late + dice.between(-2, 2) }))
  addTrim(facts, fault.small ? dice.between(12, 15) : dice.between(17, 24), dice.between(2, 5))
  facts.vacuumInHg -= fault.small ? 1 : dice.between(3.5, 5)
  facts.codes.push(...[...facts.trims.keys()].map(leanCode))
  facts.swingRpm = dice.weighed([[15, 2] as const, [60, 1] as const, [140, 1] as const])
  facts.leaks.push(fault)
}

/** One cylinder: its fellows' trims move little. */
const leanCylinder: Effect = (facts, fault, dice, engine) => {
  change(facts, fault.cylinders, () => ({
    latePct: fault.small ? dice.between(17, 21) : dice.between(32, 42),
  }))
  const bank = bankOfAll(engine, fault.cylinders)
  const idle = dice.between(4, 8)
  const leak = dice.between(1, 3)
  // air leaks in less at speed; an injector that gives too little does so at every speed
  addTrim(facts, idle, fault.kind === 'injector restricted' ? idle + leak : leak, [bank])
  facts.codes.push(`P030${fault.cylinders[0]}`)
}

const richCylinder: Effect = (facts, fault, dice) =>
  change(facts, fault.cylinders, (c) => ({ latePct: -dice.between(32, 40), firingKv: c.firingKv - 1 }))

const EFFECTS: Readonly<Record<FaultKind, Effect>> = {
  'throttle gasket': sharedLeak,
  'vacuum hose': sharedLeak,
  'breather hose': sharedLeak,
  'brake servo hose': sharedLeak,
  'manifold gasket': (facts, fault, dice, engine) => {
    if (!engine.banks) return sharedLeak(facts, fault, dice, engine)
    const late = fault.small ? dice.between(17, 21) : dice.between(32, 42)
    change(facts, fault.cylinders, () => ({ latePct: late + dice.between(-2, 2) }))
    const bank = bankOfAll(engine, fault.cylinders)
    addTrim(facts, dice.between(17, 24), dice.between(2, 5), [bank])
    facts.vacuumInHg -= dice.between(2.5, 4)
    facts.codes.push(leanCode(bank))
    facts.leaks.push(fault)
  },
  'runner joint': (facts, fault, dice, engine) => {
    leanCylinder(facts, fault, dice, engine)
    facts.leaks.push(fault)
  },
  'fuel pressure low': (facts, fault, dice) => {
    change(facts, fault.cylinders, () => ({ latePct: dice.between(33, 40) }))
    addTrim(facts, dice.between(11, 15), dice.between(18, 25))
    const down = dice.between(0.8, 1.1)
    facts.pressureBar.keyOn -= down
    facts.pressureBar.idle -= down
    facts.pressureBar.hold -= down
    facts.codes.push(...[...facts.trims.keys()].map(leanCode))
  },
  'injector leaking': (facts, fault, dice, engine) => {
    richCylinder(facts, fault, dice, engine)
    addTrim(facts, -dice.between(11, 15), -dice.between(2, 4), [bankOfAll(engine, fault.cylinders)])
    facts.pressureBar.hold -= dice.between(1.1, 1.5)
    facts.gas = { CO: 2.1, CO2: 13.2, HC: 420, O2: 0.4 }
    facts.codes.push('P0172')
  },
  'injector restricted': leanCylinder,
  valve: (facts, fault, dice, engine) => {
    richCylinder(facts, fault, dice, engine)
    facts.compressionBar.set(fault.cylinders[0]!, dice.between(6.4, 7.6))
    facts.vacuumInHg -= dice.between(2.5, 4)
    facts.codes.push(`P030${fault.cylinders[0]}`)
  },
  'open lead': (facts, fault) => {
    change(facts, fault.cylinders, () => ({ openShare: 1 }))
    facts.codes.push(`P030${fault.cylinders[0]}`)
    facts.gas = { CO: 0.3, CO2: 12.6, HC: 900, O2: 2.6 }
  },
  coil: (facts, fault, dice) => {
    change(facts, fault.cylinders, () => ({ openShare: dice.between(0.4, 0.7) }))
    facts.codes.push(`P030${fault.cylinders[0]}`, `P035${fault.cylinders[0]}`)
  },
  'worn plugs': (facts, fault, dice) =>
    change(facts, fault.cylinders, () => ({
      firingKv: dice.between(17.5, 19),
      burnMs: dice.between(0.8, 0.95),
    })),
}
