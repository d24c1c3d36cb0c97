import type { BecauseCode } from './because.ts'
import type { ChannelEntry } from '../job/schema.ts'
import type { Look } from './look-at-column.ts'
import type { Because, Role } from './peeked.ts'

type Carries = ChannelEntry['carries']

/** What is known of a column beside its samples. */
export interface ColumnWords {
  name: string
  unit: string | undefined
}

/** A column's role, how sure, and why. */
export interface Weighed {
  role: Role
  sureness: number
  because: readonly Because[]
}

/** One thing seen: what it speaks for, and by how much (natural logarithm of odds, this project's judgement). */
interface Sign {
  role: Carries
  /** Undefined where it speaks against the role: that is weighed and not told. */
  code?: BecauseCode
  args: Because['args']
  weight: number
}

const NAMES: Readonly<Record<Carries, RegExp>> = {
  secondary:
    /sec|sekund|(?:^|[^a-z])(?:kv|hv|ht|cop)(?:[^a-z]|$)|spark|(?:coil|spule|bobine|bobina)(?!.*(?:cur|amp|strom|courant|corriente))|ignition|z\u00fcnd|allumage|encendido/i,
  sync: /sync|trig|(?:^|[^a-z])(?:cyl|zyl|cam|came|leva|cmp|tdc|ot)(?:[^a-z]|$)|nocken|camshaft|pulse|impuls|ref\b/i,
  'primary-voltage': /prim.*v|primary$/i,
  'primary-current': /prim.*(?:cur|amp|_a\b)|coil cur|prim.*strom/i,
  speed: /rpm|speed|n_eng|1\/min|u\/min|tr\/min|drehzahl|r[e\u00e9]gime|vueltas/i,
}
/** Ignition events a second from one pickup: a single cylinder at cranking speed, twelve at the red line. */
const EVENTS_HZ: readonly [number, number] = [0.8, 800]
const LEAST_EVENTS = 3
/** Cycles a second an engine turns through. */
const PULSES_HZ: readonly [number, number] = [0.8, 80]
const LEAST_PULSES = 2
/** Engine speeds anybody records, rpm. */
const SPEED_RPM: readonly [number, number] = [50, 15_000]
/** What a column counts that shows nothing: odds against any reading. */
const NOTHING = 1.5

const within = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high

/** Weighs what a column may carry: samples first, then its unit and name. */
export function weighRoles(words: ColumnWords, look: Look): Weighed {
  const signs = [...ofSamples(look), ...ofUnit(words, look), ...ofName(words)]
  const roles: readonly Carries[] = ['secondary', 'sync', 'primary-voltage', 'primary-current', 'speed']
  const odds = roles.map((role) => ({
    role,
    weight: Math.exp(signs.filter((s) => s.role === role).reduce((sum, s) => sum + s.weight, 0) - NOTHING),
  }))
  const total = 1 + odds.reduce((sum, o) => sum + o.weight, 0)
  const best = odds.reduce((a, b) => (b.weight > a.weight ? b : a))
  if (best.weight <= 1)
    return { role: 'unknown', sureness: 1 / total, because: [{ code: 'nothing', args: {} }] }
  const because = signs
    .filter((s) => s.role === best.role && s.weight > 0)
    .flatMap(({ code, args }) => (code === undefined ? [] : [{ code, args }]))
  return { role: best.role, sureness: best.weight / total, because }
}

function* ofSamples({ sparks, pulses, restShare, roughness, low, high }: Look): Generator<Sign> {
  const isFast = sparks !== undefined
  if (sparks && sparks.count >= LEAST_EVENTS && within(sparks.perS, EVENTS_HZ)) {
    yield { role: 'secondary', weight: 2, code: 'sparks', args: { count: sparks.count, perS: sparks.perS } }
    if (sparks.chargedShare > 0.5)
      yield { role: 'secondary', weight: 2.5, code: 'dwell', args: { percent: 100 * sparks.chargedShare } }
    if (sparks.chargedShare < 0.2) yield { role: 'secondary', weight: -1.5, args: {} }
  } else if (isFast) yield { role: 'secondary', weight: -3, args: {} }
  if (pulses && pulses.timesS.length >= LEAST_PULSES && within(pulses.perS, PULSES_HZ)) {
    // Every secondary shows pulses too: only what stays quiet between them, without dwell, is a sync.
    const charged = sparks !== undefined && sparks.count >= LEAST_EVENTS && sparks.chargedShare > 0.5
    yield {
      role: 'sync',
      weight: charged ? -2 : 1,
      code: 'pulses',
      args: { count: pulses.timesS.length, perS: pulses.perS },
    }
    if (pulses.spread < 0.15)
      yield { role: 'sync', weight: 1, code: 'even-pulses', args: { percent: 100 * pulses.spread } }
    if (restShare > 0.95)
      yield { role: 'sync', weight: 1, code: 'quiet-between', args: { percent: 100 * restShare } }
  } else if (pulses?.timesS.length === 1 && restShare > 0.95)
    // A short stretch may hold one turn alone: its name has to say the rest.
    yield { role: 'sync', weight: 1, code: 'quiet-between', args: { percent: 100 * restShare } }
  else if (isFast) yield { role: 'sync', weight: -3, args: {} }
  if (isFast) yield { role: 'speed', weight: -2, args: {} }
  else if (within(low, SPEED_RPM) && within(high, SPEED_RPM) && roughness < 0.2)
    yield { role: 'speed', weight: 1.5, code: 'speed-range', args: { low, high } }
}

function* ofUnit({ unit }: ColumnWords, { sparks }: Look): Generator<Sign> {
  const args = { unit: unit ?? '' }
  if (unit === 'kV') {
    yield { role: 'secondary', weight: 2, code: 'unit', args }
    yield { role: 'sync', weight: -1, code: 'unit', args }
  }
  if (unit === 'rpm') yield { role: 'speed', weight: 5, code: 'unit', args }
  if (unit === 'Hz') yield { role: 'speed', weight: 1, code: 'unit', args }
  if (unit === 'A' || unit === 'mA') yield { role: 'primary-current', weight: 2, code: 'unit', args }
  const isElectric = ['kV', 'V', 'mV', 'A', 'mA'].includes(unit ?? '')
  if (isElectric) yield { role: 'speed', weight: -4, code: 'unit', args }
  else if (unit !== undefined) yield { role: 'secondary', weight: -4, code: 'unit', args }
  if (unit === 'A' || unit === 'mA') yield { role: 'secondary', weight: -4, code: 'unit', args }
  if (sparks === undefined && isElectric) yield { role: 'secondary', weight: 0.5, code: 'unit', args }
}

function* ofName({ name }: ColumnWords): Generator<Sign> {
  for (const [role, pattern] of Object.entries(NAMES) as [Carries, RegExp][]) {
    if (pattern.test(name)) yield { role, weight: 1.8, code: 'name', args: { name } }
  }
}
