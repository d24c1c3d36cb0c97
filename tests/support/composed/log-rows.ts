import type { LogColumn } from '../../../src/job/log-steps.ts'
import { dice as makeDice, type Dice } from './dice.ts'
import type { ComposedEngine } from './engines.ts'
import { allOf } from './engines.ts'
import { HOSES, KINDS, LEAKS, type EngineFacts, type Fault, type FaultKind } from './faults.ts'

/** A row of test-log.csv; columns left out are empty. */
export type LogRow = Partial<Record<LogColumn, string | number>>

/** Minutes after nine in the morning as the log writes a time. */
export const clock = (minutes: number): string =>
  `2026-05-12T${String(9 + Math.floor(minutes / 60)).padStart(2, '0')}:${String(Math.floor(minutes % 60)).padStart(2, '0')}:00+01:00`

/** A fault that a figure or a finding of the record shows. */
export interface Shown {
  stage: 'before' | 'after'
  fault: Fault
  by: 'capture' | 'trim' | 'compression' | 'fuel-pressure' | 'spray' | 'cap' | 'smoke'
}

export interface Written {
  rows: LogRow[]
  shown: Shown[]
  /** Speed traces by file. */
  traces: Map<string, string>
  /** Causes about whose place the technician noted what is not so. */
  mistaken: string[]
}

export interface LogAbout {
  engine: ComposedEngine
  faults: readonly Fault[]
  facts: EngineFacts
  stage: 'before' | 'after'
  dice: Dice
  /** Share of the tests a shop would do that this one did: terse or thorough. */
  zeal: number
  /** Whether the technician errs now and then. */
  errs: boolean
  /** Minutes after nine. */
  from: number
}

const round = (value: number, places: number) => Number(value.toFixed(places))
const TRIM_STEP = 100 / 128

/** Tests of one stage, in the order a shop does them. */
export function writeTests(about: LogAbout): Written & { until: number } {
  const { engine, faults, facts, stage, dice, zeal } = about
  const out: Written = { rows: [], shown: [], traces: new Map(), mistaken: [] }
  let minutes = about.from
  const tell = (...rows: LogRow[]) => {
    for (const row of rows)
      out.rows.push({ at: clock(minutes), ...(stage === 'after' ? { stage } : {}), ...row })
    minutes += 3
  }
  const shows = (fault: Fault | undefined, by: Shown['by']) => fault && out.shown.push({ stage, fault, by })
  const lacking = (...kinds: FaultKind[]) => faults.filter((f) => kinds.includes(f.kind))

  if (stage === 'before' && dice.chance(zeal) && facts.codes.length > 0)
    tell(
      ...facts.codes.slice(0, dice.chance(0.8) ? 3 : 1).map((reading): LogRow => ({ step: 'code', reading })),
    )
  if (dice.chance(0.3 + zeal / 2) || (stage === 'after' && about.zeal > 0.9)) {
    tell(...trimRows(facts, 'idle', dice))
    if ([...facts.trims.values()].some(({ idle }) => Math.abs(idle) > 11))
      for (const fault of faults)
        if (LEAKS.includes(fault.kind) && fault.kind !== 'runner joint') shows(fault, 'trim')
        else if (fault.kind === 'fuel pressure low' || fault.kind === 'injector leaking') shows(fault, 'trim')
    if (dice.chance(zeal * 0.8)) tell(...trimRows(facts, '2500 rpm', dice))
  }
  if (dice.chance(zeal * 0.5))
    tell({
      step: 'vacuum',
      condition: 'idle',
      reading: 'manifold',
      ...(dice.chance(0.7)
        ? { value: round(facts.vacuumInHg, 1), unit: 'inHg', expected_low: 17, expected_high: 21 }
        : {
            value: round(101.3 - 3.386 * facts.vacuumInHg, 0),
            unit: 'kPa',
            expected_low: 28,
            expected_high: 45,
          }),
    })
  if (dice.chance(lacking('valve').length > 0 ? 0.3 + zeal * 0.6 : zeal * 0.4)) {
    tell(...compressionRows(facts, dice))
    lacking('valve').forEach((fault) => shows(fault, 'compression'))
  }
  if (
    dice.chance(lacking('fuel pressure low', 'injector leaking').length > 0 ? 0.2 + zeal * 0.6 : zeal * 0.4)
  ) {
    tell(...pressureRows(facts, dice))
    lacking('fuel pressure low').forEach((fault) => shows(fault, 'fuel-pressure'))
  }
  if (dice.chance(zeal * 0.3))
    tell(
      ...(['CO', 'CO2', 'O2'] as const).map((reading): LogRow => ({
        step: 'gas',
        condition: 'idle',
        reading,
        value: facts.gas[reading],
        unit: '%vol',
      })),
      { step: 'gas', condition: 'idle', reading: 'HC', value: facts.gas.HC, unit: 'ppm' },
    )
  if (stage === 'before' && dice.chance(zeal)) minutes = leakHunt(about, out, { minutes, shows })
  if (stage === 'before') for (const fault of faults) if (dice.chance(0.35)) tell(...partNote(fault, engine))
  return { ...out, until: minutes }
}

function trimRows(facts: EngineFacts, condition: 'idle' | '2500 rpm', dice: Dice): LogRow[] {
  return [...facts.trims].flatMap(([bank, { idle, at2500 }]) => {
    const sum = condition === 'idle' ? idle : at2500
    const short = Math.round((sum * dice.between(0.3, 0.5)) / TRIM_STEP)
    const long = Math.round(sum / TRIM_STEP) - short
    const row = (reading: string, steps: number): LogRow => ({
      step: 'trim',
      condition,
      reading,
      value: round(steps * TRIM_STEP, 1),
      unit: '%',
    })
    return [row(`STFT${bank}`, short), row(`LTFT${bank}`, long)]
  })
}

const PRESSURE_UNITS = [
  ['bar', 1, 1],
  ['psi', 14.504, 0],
  ['kPa', 100, 0],
] as const

function compressionRows(facts: EngineFacts, dice: Dice): LogRow[] {
  const [unit, per, places] = dice.pick(PRESSURE_UNITS)
  const limits = dice.chance(0.5)
    ? { expected_low: round(10 * per, places), expected_high: round(13 * per, places) }
    : {}
  return [...facts.compressionBar].map(([c, bar]) => ({
    step: 'compression',
    condition: 'cranking',
    reading: `cylinder ${c}`,
    value: round(bar * per, places),
    unit,
    ...limits,
  }))
}

function pressureRows({ pressureBar }: EngineFacts, dice: Dice): LogRow[] {
  const [unit, per, places] = dice.pick(PRESSURE_UNITS)
  const row = (reading: string, bar: number): LogRow => ({
    step: 'fuel-pressure',
    reading,
    value: round(bar * per, places === 1 ? 2 : places),
    unit,
    expected_low: round(2.8 * per, places),
    expected_high: round(3.2 * per, places),
  })
  return [
    row('key-on', pressureBar.keyOn),
    row('idle', pressureBar.idle),
    ...(dice.chance(0.5)
      ? [{ ...row('hold', pressureBar.hold), expected_low: round(2.5 * per, places) }]
      : []),
  ]
}

/** What a technician notes of the part itself. */
function partNote(fault: Fault, engine: ComposedEngine): LogRow[] {
  const [c] = fault.cylinders
  const words: Partial<Record<FaultKind, string>> = {
    'worn plugs': 'plugs gapped 1.7-1.9, spec 1.1, electrodes round',
    'open lead': `lead ${c} open circuit on meter`,
    coil: `coil ${c} swapped to ${(c! % engine.cylinders) + 1}: misfire moved`,
    'injector leaking': `plug ${c} black and wet`,
  }
  const note = words[fault.kind]
  return note === undefined ? [] : [{ step: 'note', note }]
}

/** Places that are sprayed on such an engine, the true ones among them as a rule. */
function leakHunt(
  { engine, faults, facts, dice, errs, zeal }: LogAbout,
  out: Written,
  { minutes: from, shows }: { minutes: number; shows: (fault: Fault, by: Shown['by']) => unknown },
): number {
  let minutes = from
  const leanish = faults.some((f) => LEAKS.includes(f.kind) || /fuel pressure|restricted/.test(f.kind))
  if (!leanish && dice.chance(0.7)) return minutes
  const found = facts.leaks.filter(() => dice.chance(0.85))
  const others = dice
    .shuffled(LEAKS.filter((kind) => !facts.leaks.some((f) => f.kind === kind)))
    .slice(0, 1 + dice.integer(3))
    .map((kind): Fault => elsewhere(kind, engine, dice))
  const places = dice.shuffled([...found, ...others])
  const traced = dice.chance(0.35)
  const answers = (fault: Fault) => {
    const truly = facts.leaks.includes(fault)
    const said = errs && dice.chance(0.15) ? !truly : truly
    if (said !== truly) out.mistaken.push(fault.cause)
    return said
  }
  const again = dice.chance(0.4) ? found : []
  if (traced) {
    const sprays = [...places, ...again].slice(0, 5).map((place, i) => ({ place, fromS: 20 + 22 * i }))
    const file = 'traces/s1.csv'
    const truly = ({ place }: { place: Fault }) => facts.leaks.includes(place)
    out.traces.set(
      file,
      traceCsv(
        sprays.map((s) => ({ fromS: s.fromS, rises: truly(s) })),
        facts,
        dice,
      ),
    )
    for (const { place, fromS } of sprays) {
      out.rows.push({
        at: clock(minutes),
        step: 'spray',
        place: place.place,
        condition: 'idle',
        reading: 'starting-fluid',
        trace: file,
        from_s: fromS,
        to_s: fromS + 3,
      })
      minutes += 2
    }
  } else
    for (const place of [...places, ...again]) {
      const said = answers(place)
      if (said && facts.leaks.includes(place)) shows(place, 'spray')
      out.rows.push({
        at: clock(minutes),
        step: 'spray',
        place: place.place,
        condition: 'idle',
        reading: 'starting-fluid',
        outcome: said ? 'response' : 'no response',
        ...(dice.chance(0.2) ? { note: 'by ear' } : {}),
      })
      minutes += 2
    }
  for (const place of places.filter(({ kind }) => HOSES.includes(kind)))
    if (dice.chance(0.5 * zeal)) {
      const said = answers(place)
      if (said && facts.leaks.includes(place)) shows(place, 'cap')
      const cap = {
        step: 'cap',
        place: place.place,
        condition: 'idle',
        outcome: said ? 'fixed' : 'no response',
      }
      out.rows.push({ at: clock(minutes), ...cap })
      if (dice.chance(0.7)) out.rows.push({ at: clock(minutes + 2), step: 'uncap', place: place.place })
      minutes += 4
    }
  for (const place of places)
    if (dice.chance(0.2 * zeal)) {
      const said = answers(place)
      if (said && facts.leaks.includes(place)) shows(place, 'smoke')
      out.rows.push({
        at: clock(minutes),
        step: 'smoke',
        place: place.place,
        outcome: said ? 'leak' : 'no leak',
      })
      minutes += 10
    }
  return minutes
}

/** A sound place of a kind. */
function elsewhere(kind: FaultKind, engine: ComposedEngine, dice: Dice): Fault {
  const of = KINDS[kind]
  const cylinders = kind === 'runner joint' ? [dice.pick(allOf(engine))] : of.where(engine, dice)
  return {
    kind,
    cylinders,
    cause: of.cause,
    place: of.place(dice, cylinders, engine),
    named: of.named(cylinders),
    small: false,
  }
}

/** Engine speed at 20 points a second; a place that leaks lifts it for some seconds after the spray. */
function traceCsv(
  sprays: readonly { fromS: number; rises: boolean }[],
  facts: EngineFacts,
  dice: Dice,
): string {
  const own = makeDice(dice.integer(1 << 30))
  const lines = ['time_s,rpm']
  for (let i = 0; i < 20 * (sprays.at(-1)!.fromS + 22); i++) {
    const t = i / 20
    const lift = sprays.reduce((sum, { fromS, rises }) => {
      const since = t - fromS - 0.5
      return (
        sum +
        (rises && since > 0 && since < 6 ? 85 * Math.min(1, since / 0.8) * Math.min(1, (6 - since) / 2) : 0)
      )
    }, 0)
    const rpm = 760 + facts.swingRpm * 0.5 * Math.sin((2 * Math.PI * t) / 2.3) + 3 * own.gaussian() + lift
    lines.push(`${t.toFixed(2)},${Math.round(rpm)}`)
  }
  return `${lines.join('\n')}\n`
}
