import { problem, type Problem } from '../../problems/problem.ts'
import type { ChannelPart } from '../parts.ts'
import type { ChannelEntry, Engine } from '../schema.ts'
import type { YamlFile } from '../yaml-document.ts'
import { duplicate, inconsistent, missingKey, repeated, type Check } from './check.ts'

/** Units that make sense for what a channel carries; an inductive clamp can give a sync pulse as a current. */
export const UNITS_OF: Readonly<Record<ChannelEntry['carries'], readonly ChannelEntry['unit'][]>> = {
  secondary: ['kV', 'V', 'mV'],
  sync: ['V', 'mV', 'kV', 'A', 'mA'],
  'primary-voltage': ['V', 'mV', 'kV'],
  'primary-current': ['A', 'mA'],
  speed: ['rpm', 'Hz'],
}

/** Each channel by itself: the cylinders it names, its unit, its limits. */
export const channels: Check = function* ({ engine, recordings }, yaml) {
  for (const channel of recordings.flatMap((r) => r.channels)) {
    yield* cylinderKeys(channel, yaml)
    yield* cylinderNumbers(channel, engine, yaml)
    yield* unitFits(channel, yaml)
    const [low, high] = channel.entry.limits ?? [-1, 1]
    if (low >= high) yield inconsistent(yaml, [...channel.path, 'limits'], { expected: 'phrase.low-high' })
  }
}

/** `cylinders` belongs to a pickup, `cylinder` to a sync pulse; the one in place of the other is one mistake, not two. */
function* cylinderKeys({ path, entry }: ChannelPart, yaml: YamlFile): Generator<Problem> {
  const pulse = entry.carries === 'sync'
  const many = [...path, 'cylinders']
  const one = [...path, 'cylinder']
  const swapped = pulse ? entry.cylinders !== undefined : entry.cylinder !== undefined
  if (swapped)
    yield inconsistent(yaml, pulse ? many : one, {
      expected: pulse ? 'phrase.sync-cylinder' : 'phrase.pickup-cylinders',
    })
  else if (pulse && entry.cylinder === undefined) yield missingKey(yaml, one)
  else if (entry.carries === 'secondary' && entry.cylinders === undefined) yield missingKey(yaml, many)
  if (entry.carries === 'speed' && entry.cylinders !== undefined)
    yield inconsistent(yaml, many, { expected: 'phrase.no-cylinders' })
}

function* cylinderNumbers(
  { path, entry }: ChannelPart,
  engine: Engine | undefined,
  yaml: YamlFile,
): Generator<Problem> {
  const most = engine?.cylinders ?? Infinity
  const expected = `1 … ${most}`
  if (entry.cylinder !== undefined && entry.cylinder > most)
    yield inconsistent(yaml, [...path, 'cylinder'], { expected })
  const named = cylindersNamed(entry)
  const many = [...path, 'cylinders']
  if (named.some((n) => n > most)) yield inconsistent(yaml, many, { expected })
  for (const n of repeated(named)) yield duplicate(yaml, many, String(n))
}

function* unitFits({ path, entry }: ChannelPart, yaml: YamlFile): Generator<Problem> {
  const fitting = UNITS_OF[entry.carries]
  if (fitting.includes(entry.unit)) return
  yield problem('wrong-unit', yaml.valuePlace([...path, 'unit']), {
    column: String(entry.column),
    unit: entry.unit,
    expected: fitting.join(' | '),
    found: entry.unit,
  })
}

/** The cylinders a channel names one by one. */
export function cylindersNamed({ cylinders }: ChannelEntry): number[] {
  if (cylinders === undefined || cylinders === 'all') return []
  return typeof cylinders === 'number' ? [cylinders] : cylinders
}
