/**
 * Words that name one place by many names, brought to one set: "PCV" and "PCV valve", "TB seal" and "throttle body
 * gasket", "servo pipe" and "brake booster vacuum hose" are the same part of the car. Only for telling whether two
 * places are the same; what a place is, is read from its own words. Common practice, no source.
 */

type Words = ReadonlySet<string>

/** Words for the same thing wherever they stand; the first stands for all. */
const ALIKE: readonly (readonly string[])[] = [
  ['hose', 'line', 'pipe', 'tube', 'tubing'],
  ['joint', 'gasket', 'seal', 'flange'],
  ['lead', 'wire'],
  ['valve', 'solenoid'],
]
const FIRST_OF = new Map(ALIKE.flatMap((all) => all.map((word) => [word, all[0]!] as const)))

/** The words with all that mean the same. */
export const withAlike = (words: readonly string[]): ReadonlySet<string> =>
  new Set(words.flatMap((word) => ALIKE.find((all) => all.includes(word)) ?? [word]))

/** A part known by its own words: where all of `by` stand, `without` falls away and `is` is put. */
interface Part {
  by: readonly string[]
  without: readonly string[]
  is: readonly string[]
  /** What the part is where nothing else of it is named: "EGR" is its valve. */
  alone?: string
}

const PARTS: readonly Part[] = [
  ...['booster', 'servo', 'brake'].map((by) => ({
    by: [by],
    without: ['booster', 'servo', 'brake', 'power', 'vacuum'],
    is: ['brake', 'booster'],
  })),
  { by: ['throttle'], without: ['body'], is: ['throttle'] },
  { by: ['plenum'], without: ['intake', 'manifold', 'chamber', 'upper'], is: ['plenum'] },
  ...[['crankcase', 'ventilation'], ['crankcase', 'vent'], ['pcv']].map((by) => ({
    by,
    without: ['crankcase', 'ventilation', 'vent', 'positive', 'vacuum', 'valve'],
    is: ['pcv'],
    alone: 'valve',
  })),
  { by: ['breather'], without: ['crankcase'], is: ['breather'] },
  { by: ['egr'], without: ['valve', 'exhaust', 'gas', 'recirculation'], is: ['egr'], alone: 'valve' },
  { by: ['recirculation'], without: ['valve', 'exhaust', 'gas'], is: ['egr'], alone: 'valve' },
  { by: ['canister', 'hose'], without: ['valve', 'vacuum'], is: ['purge', 'hose'] },
  ...[['purge'], ['canister', 'valve']].map((by) => ({
    by,
    without: ['canister', 'valve', 'vacuum'],
    is: ['purge'],
    alone: 'valve',
  })),
  {
    by: ['idle'],
    without: ['air', 'control', 'speed', 'motor', 'stepper', 'regulator', 'actuator', 'valve', 'vacuum'],
    is: ['idle'],
    alone: 'valve',
  },
  ...[
    ['pressure', 'regulator'],
    ['fuel', 'regulator'],
  ].map((by) => ({ by, without: ['fuel', 'pressure', 'vacuum'], is: ['regulator'] })),
  { by: ['map'], without: ['sensor', 'pressure', 'vacuum'], is: ['map'] },
  { by: ['dipstick'], without: ['oil', 'hose'], is: ['dipstick'] },
  { by: ['oil', 'cap'], without: ['filler', 'fill'], is: ['oil', 'cap'] },
  { by: ['oil', 'filler'], without: ['fill'], is: ['oil', 'cap'] },
  ...['rocker', 'cam', 'valve', 'head'].map((by) => ({
    by: [by, 'cover'],
    without: ['rocker', 'cam', 'head'],
    is: ['valve', 'cover'],
  })),
  ...[
    ['plug', 'lead'],
    ['ignition', 'lead'],
  ].map((by) => ({ by, without: ['spark', 'ignition', 'plug'], is: ['plug', 'lead'] })),
  { by: ['plug'], without: ['spark'], is: ['plug'] },
  { by: ['coil'], without: ['ignition', 'pack'], is: ['coil'] },
  { by: ['oxygen'], without: ['sensor'], is: ['oxygen', 'sensor'] },
  { by: ['injector'], without: ['fuel'], is: ['injector'] },
  ...['control', 'vacuum'].map((by) => ({
    by: ['heater', by],
    without: ['control', 'vacuum'],
    is: ['heater', 'control'],
  })),
  ...[['maf'], ['air', 'meter'], ['flow', 'meter'], ['mass', 'air'], ['air', 'flow']].map((by) => ({
    by,
    without: ['maf', 'mass', 'air', 'flow', 'meter', 'sensor'],
    is: ['air', 'meter'],
  })),
  ...[
    ['air', 'filter'],
    ['air', 'box'],
    ['air', 'cleaner'],
  ].map((by) => ({
    by,
    without: ['filter', 'box', 'cleaner', 'housing', 'lid'],
    is: ['air', 'filter', 'box'],
  })),
]

/** A joint of the intake, and its duct, by what their words leave out. */
const INTAKE = 'intake'
const JOINT = 'joint'
/** Words that call the duct between meter and throttle a duct. */
const DUCTS = ['duct', 'hose', 'boot', 'bellows']

/**
 * The one set of words for a place.
 *
 * @param words     in English, as read-words gives them, without "cylinder"
 * @param ofOne     it names a cylinder
 */
export function onePlace(words: readonly string[], ofOne: boolean): string[] {
  // "Joint" and "gasket" by themselves name no part: they may be two.
  if (words.every((w) => FIRST_OF.has(w))) return [...words].sort()
  let at: Words = new Set(words.map((w) => FIRST_OF.get(w) ?? w))
  for (const part of PARTS) at = asPart(at, part)
  at = ofVacuum(ofIntake(at, ofOne))
  return [...at].sort()
}

function asPart(words: Words, { by, without, is, alone }: Part): Words {
  if (!by.every((w) => words.has(w))) return words
  const rest = [...words].filter((w) => !without.includes(w) && !by.includes(w) && !is.includes(w))
  return new Set([...is, ...rest, ...(alone !== undefined && rest.length === 0 ? [alone] : [])])
}

/** "Intake gasket" is the manifold's, and with a cylinder its runner's; "intake hose" is the air duct. */
function ofIntake(words: Words, ofOne: boolean): Words {
  const has = (...all: string[]) => all.every((w) => words.has(w))
  const but = (...out: string[]) => [...words].filter((w) => !out.includes(w))
  const isExhaust = has('exhaust')
  if (ofOne && has(JOINT) && !isExhaust && ['manifold', INTAKE, 'port', 'runner'].some((w) => words.has(w)))
    return new Set([...but('manifold', INTAKE, 'port', 'duct'), 'runner'])
  if (has('manifold') && !isExhaust) return new Set(but(INTAKE))
  if (has(INTAKE, JOINT) && words.size === 2) return new Set(['manifold', JOINT])
  if ((has(INTAKE) || has('air')) && DUCTS.some((w) => words.has(w)))
    return new Set(['air', 'duct', ...but(INTAKE, 'air', ...DUCTS)])
  return words
}

/** What a hose or port of a named part works with goes without saying; one of nothing named is a vacuum hose. */
const CARRIERS: Words = new Set(['vacuum', 'hose', 'port', 'tee', 'connector', 'cap'])
const ofVacuum = (words: Words): Words =>
  [...words].some((w) => !CARRIERS.has(w)) ? new Set([...words].filter((w) => w !== 'vacuum')) : words
