import type { EvidenceKind } from '../../limits/keys.ts'
import { ownWords, listOf } from '../../texts/messages.ts'
import type { Fact } from '../../test-log/fact.ts'
import type { SourcedFact } from '../../test-log/facts.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observe, type Observation, type Pointing } from './observation.ts'

/**
 * Observations from facts of the log; which of them speak of the state in question is for of-state.ts to say. Repairs
 * and what follows them: from-repair.ts. Facts that contradict one another are marked so; a fact that bears on no cause
 * by itself gives none.
 */
export function fromFacts(before: readonly SourcedFact[], engine: EngineLayout): Observation[] {
  const single = before.flatMap((fact) =>
    observationsOf(fact, engine).map((o): Observation => ({
      ...o,
      sure: fact.sure,
      tests: fact.tests,
      contradicted: isContradicted(fact, before),
      disputed: isDisputed(fact, before),
    })),
  )
  return merged([...bothBanks(single, engine), ...compression(before)])
}

type Bare = Pick<Observation, 'kind' | 'at' | 'args'>

function observationsOf(fact: SourcedFact, engine: EngineLayout): Bare[] {
  switch (fact.kind) {
    case 'spray-response':
      return fact.capped.length ? [] : [atPlace('spray-response', fact.place)]
    case 'spray-silent':
      return fact.capped.length ? [] : [atPlace('spray-silent', fact.place)]
    case 'isolation':
      return isolation(fact)
    case 'cap':
      return [atPlace(fact.changed ? 'cap-changed' : 'cap-unchanged', fact.place)]
    case 'smoke':
      return [atPlace(fact.leak ? 'smoke-leak' : 'smoke-none', fact.place)]
    case 'trim-pattern':
      return trims(fact)
    case 'lambda':
      return [bare(LAMBDA[fact.side])]
    case 'gas-doubt':
      return fact.why === 'air after the engine' ? [bare('gas-air-after-engine')] : []
    case 'lambda-trims':
      return [bare(TOGETHER[fact.together])]
    case 'unmetered-air':
      return fact.at2500 === 'not checked'
        ? []
        : [bare(fact.at2500 === 'agrees' ? 'air-agrees' : 'air-disagrees')]
    case 'fuel-pressure':
      return fuelPressure(fact)
    case 'vacuum':
      return fact.state === 'high' ? [] : [bare(fact.state === 'low' ? 'vacuum-low' : 'vacuum-in-order')]
    case 'code':
      return code(fact, engine)
    case 'part':
      return [part(fact, engine)]
    case 'codes-none':
    case 'compression':
    case 'untested':
    case 'repair':
    case 'contradiction':
      return []
  }
}

const bare = (
  kind: EvidenceKind,
  at: Pointing = { kind: 'engine' },
  args: Observation['args'] = {},
): Bare => ({ kind, at, args })
const atPlace = (kind: EvidenceKind, place: string): Bare =>
  bare(kind, { kind: 'places', places: [place] }, { place: ownWords(place) })

const LAMBDA: Readonly<Record<SourcedFact<'lambda'>['side'], EvidenceKind>> = {
  lean: 'lambda-lean',
  rich: 'lambda-rich',
  'in order': 'lambda-in-order',
}

const TOGETHER: Readonly<Record<SourcedFact<'lambda-trims'>['together'], EvidenceKind>> = {
  'both lean': 'gas-both-lean',
  compensated: 'gas-compensated',
  'gas lean, trims in order': 'gas-lean-only',
  opposed: 'gas-opposed',
}

/** Isolation speaks of the sprayed place and of the capped one, in opposite ways. */
function isolation({ place, capped, drawsAir }: SourcedFact<'isolation'>): Bare[] {
  const args = { place: ownWords(place), capped: listOf(capped.map(ownWords), 'semicolon') }
  const at = (places: readonly string[]): Pointing => ({ kind: 'places', places })
  const others = capped.filter((c) => c !== place)
  if (drawsAir === 'itself')
    return [
      bare('isolation-itself', at([place]), args),
      ...(others.length ? [bare('isolation-spared', at(others), args)] : []),
    ]
  return [
    bare('isolation-through', at(capped), args),
    ...(capped.includes(place) ? [] : [bare('isolation-not-itself', at([place]), args)]),
  ]
}

/** Patterns of the trims, of the engine and of one bank; one bank in order says nothing. */
const TRIMS: Readonly<
  Record<SourcedFact<'trim-pattern'>['pattern'], { all: EvidenceKind; bank: EvidenceKind | undefined }>
> = {
  'falls with speed': { all: 'trims-fall', bank: 'trims-fall-bank' },
  'rises with load': { all: 'trims-rise', bank: 'trims-rise-bank' },
  'lean throughout': { all: 'trims-lean-throughout', bank: 'trims-lean-throughout-bank' },
  rich: { all: 'trims-rich', bank: 'trims-rich-bank' },
  'in order': { all: 'trims-in-order', bank: undefined },
}

function trims({ pattern, banks, bank }: SourcedFact<'trim-pattern'>): Bare[] {
  const kind = TRIMS[pattern]
  if (banks === 'all' || bank === undefined) return [bare(kind.all)]
  return kind.bank === undefined ? [] : [bare(kind.bank, { kind: 'bank', bank: String(bank) }, { bank })]
}

const FUEL_PRESSURE = {
  low: 'fuel-pressure-low',
  high: 'fuel-pressure-high',
  'in order': 'fuel-pressure-in-order',
} as const

function fuelPressure({ reading, state }: SourcedFact<'fuel-pressure'>): Bare[] {
  if (state === 'falls' || (reading === 'hold' && state === 'low')) return [bare('fuel-pressure-falls')]
  return reading === 'hold' ? [] : [bare(FUEL_PRESSURE[state])]
}

/** The letter of a coil's code. @source SAE J2012: P0351 is coil A; that A is the coil of cylinder 1 where each has its own is common practice, no source */
const COIL_CODE = /^P035([1-9A-C])$/

/** A code of one coil's circuit: of its cylinder where each has a coil of its own, else of the coil all share. */
function ignitionCode(text: string, { ignition, cylinders }: EngineLayout): Bare {
  const cylinder = Number.parseInt(COIL_CODE.exec(text)?.[1] ?? '', 16)
  return ignition === 'coil-per-cylinder' && cylinders.includes(cylinder)
    ? bare('code-coil', { kind: 'cylinders', cylinders: [cylinder] }, { code: text })
    : bare('code-ignition', undefined, { code: text })
}

/** A test of a part points at the cylinders it names, else at its bank, else nowhere in particular. */
function part({ evidence, cylinders, bank, place }: SourcedFact<'part'>, engine: EngineLayout): Bare {
  const args = { cylinders: cylinders.join(', ') || '\u2013', place: place ?? '\u2013' }
  if (cylinders.length) return bare(evidence, { kind: 'cylinders', cylinders }, args)
  const banked = bank !== undefined && engine.banks !== undefined
  return bare(evidence, banked ? { kind: 'bank', bank: String(bank) } : { kind: 'engine' }, args)
}

const MIXTURE_CODE = {
  lean: { engine: 'code-lean', bank: 'code-lean-bank' },
  rich: { engine: 'code-rich', bank: 'code-rich-bank' },
} as const
const PART_CODE = {
  'air meter': 'code-air-meter',
  'coolant sensor': 'code-coolant-sensor',
  purge: 'code-purge',
  'idle control': 'code-idle-control',
  'valve timing': 'code-valve-timing',
} as const

/** Codes about one bank of an engine with two point at it; with one bank, at the engine. */
function code({ code: text, about, bank, cylinder }: SourcedFact<'code'>, engine: EngineLayout): Bare[] {
  const args = { code: text }
  const onBank: Extract<Pointing, { kind: 'bank' | 'engine' }> =
    bank !== undefined && engine.banks ? { kind: 'bank', bank: String(bank) } : { kind: 'engine' }
  const onCylinder: Pointing =
    cylinder === undefined ? { kind: 'engine' } : { kind: 'cylinders', cylinders: [cylinder] }
  switch (about) {
    case 'lean':
    case 'rich':
      return [bare(MIXTURE_CODE[about][onBank.kind], onBank, { ...args, bank: bank ?? 1 })]
    case 'misfire':
      return [
        bare(cylinder === undefined ? 'code-misfire-several' : 'code-misfire-cylinder', onCylinder, args),
      ]
    case 'oxygen sensor':
      return [bare('code-oxygen-sensor', onBank, args)]
    case 'catalyst':
      return [bare('code-catalyst', onBank, args)]
    case 'injector':
      return [bare('code-injector', onCylinder, args)]
    case 'fuel pressure':
      return [bare(text === 'P0088' ? 'code-fuel-pressure-high' : 'code-fuel-pressure-low', undefined, args)]
    case 'ignition':
      return [ignitionCode(text, engine)]
    case 'air meter':
    case 'coolant sensor':
    case 'purge':
    case 'idle control':
    case 'valve timing':
      return [bare(PART_CODE[about], undefined, args)]
    case 'exhaust recirculation':
      return [bare('code-egr', undefined, args)]
    case 'manifold pressure':
    case 'other':
    case 'maker':
      return []
  }
}

/** Codes that name every bank alike speak of the engine, not of a bank. */
function bothBanks(all: readonly Observation[], engine: EngineLayout): Observation[] {
  const banks = Object.keys(engine.banks ?? {})
  return (['lean', 'rich'] as const).reduce(
    (rest, side): Observation[] => {
      const of = rest.filter((o) => o.kind === MIXTURE_CODE[side].bank)
      if (banks.length === 0 || !banks.every((b) => of.some((o) => o.at.kind === 'bank' && o.at.bank === b)))
        return rest
      const codes = [...new Set(of.map((o) => String(o.args['code'])))].sort().join(', ')
      return [
        ...rest.filter((o) => !of.includes(o)),
        observe(MIXTURE_CODE[side].engine, { args: { code: codes }, tests: of.flatMap((o) => o.tests) }),
      ]
    },
    [...all],
  )
}

/** Compression of all cylinders read: the low ones each by itself, the others together; all low is another matter. */
function compression(facts: readonly SourcedFact[]): Observation[] {
  const of = facts.filter((f): f is SourcedFact<'compression'> => f.kind === 'compression')
  const sides = (state: 'low' | 'in order' | 'high') =>
    [...new Set(of.filter((f) => f.state === state).map((f) => f.cylinder))].sort((a, b) => a - b)
  const tests = [...new Set(of.flatMap((f) => f.tests))]
  const torn = (cylinder: number) =>
    facts.some((f) => f.kind === 'contradiction' && f.step === 'compression' && f.place === String(cylinder))
  const say = (kind: EvidenceKind, cylinders: readonly number[]): Observation =>
    observe(kind, {
      at: { kind: 'cylinders', cylinders },
      args: { cylinders: cylinders.join(', ') },
      tests,
      contradicted: cylinders.some(torn),
    })
  const low = sides('low')
  const sound = sides('in order')
  if (low.length > 1 && sound.length === 0) return [say('compression-all-low', low)]
  return [
    ...low.map((c) => say('compression-low', [c])),
    ...(sound.length ? [say('compression-in-order', sound)] : []),
    ...sides('high').map((c) => say('compression-high', [c])),
  ]
}

const TORN_KINDS: Readonly<Record<string, readonly Fact['kind'][]>> = {
  spray: ['spray-response', 'spray-silent', 'isolation'],
  isolation: ['spray-response', 'spray-silent', 'isolation'],
  cap: ['cap'],
  smoke: ['smoke'],
}

function isContradicted(fact: SourcedFact, facts: readonly SourcedFact[]): boolean {
  return (
    'place' in fact &&
    facts.some(
      (c) => c.kind === 'contradiction' && c.place === fact.place && TORN_KINDS[c.step]?.includes(fact.kind),
    )
  )
}

const DISPUTED: ReadonlySet<Fact['kind']> = new Set(['smoke', 'spray-response', 'cap'])

const isDisputed = (fact: Fact, facts: readonly SourcedFact[]): boolean =>
  'place' in fact &&
  DISPUTED.has(fact.kind) &&
  facts.some((c) => c.kind === 'contradiction' && c.step === 'methods' && c.place === fact.place)

/** Observations of the same kind, place and words are one, resting on all their tests. */
function merged(all: readonly Observation[]): Observation[] {
  const found = new Map<string, Observation>()
  for (const o of all) {
    const key = JSON.stringify([o.kind, o.at, o.args])
    const known = found.get(key)
    found.set(
      key,
      known
        ? {
            ...known,
            sure: known.sure || o.sure,
            contradicted: known.contradicted || o.contradicted,
            disputed: known.disputed || o.disputed,
            tests: [...new Set([...known.tests, ...o.tests])],
          }
        : o,
    )
  }
  return [...found.values()]
}
