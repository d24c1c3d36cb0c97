import { problem, type Problem } from '../../problems/problem.ts'
import type { ChannelPart, RecordingPart } from '../parts.ts'
import type { ChannelEntry, Engine } from '../schema.ts'
import type { YamlFile } from '../yaml-document.ts'
import { cylindersNamed } from './channels.ts'
import { duplicate, inconsistent, type Check } from './check.ts'

/**
 * The channels of one capture together: a secondary to judge, at most one sync pulse, a sync pulse where a pickup
 * sees several cylinders, and no cylinder seen by two pickups (its events would count twice). A trace needs its speed.
 */
export const captureChannels: Check = function* ({ engine, recordings }, yaml) {
  for (const recording of recordings) {
    if (recording.kind === 'traces') yield* needs(recording, 'speed', yaml)
    else {
      yield* needs(recording, 'secondary', yaml)
      yield* syncs(recording, engine, yaml)
      yield* seenTwice(recording, engine, yaml)
    }
  }
}

const carrying = (recording: RecordingPart, what: ChannelEntry['carries']): ChannelPart[] =>
  recording.channels.filter((c) => c.entry.carries === what)

function* needs(recording: RecordingPart, what: ChannelEntry['carries'], yaml: YamlFile): Generator<Problem> {
  if (!recording.whole || carrying(recording, what).length > 0) return
  const found = recording.channels.map((c) => c.entry.carries).join(', ')
  yield inconsistent(yaml, [...recording.path, 'channels'], { found, expected: `carries: ${what}` })
}

function* syncs(recording: RecordingPart, engine: Engine | undefined, yaml: YamlFile): Generator<Problem> {
  const found = carrying(recording, 'sync')
  if (found.length > 1) {
    const cylinders = found.map((c) => c.entry.cylinder ?? '?').join(', ')
    yield problem('two-sync', yaml.valuePlace(found[1]!.path), { cylinders })
  }
  if (found.length > 0 || !recording.whole || !engine) return
  for (const { path, entry } of carrying(recording, 'secondary')) {
    if (seen(entry, engine).length < 2) continue
    yield problem('sync-missing', yaml.valuePlace([...path, 'cylinders']), { channel: String(entry.column) })
  }
}

function* seenTwice(
  recording: RecordingPart,
  engine: Engine | undefined,
  yaml: YamlFile,
): Generator<Problem> {
  const taken = new Set<number>()
  for (const { path, entry } of carrying(recording, 'secondary')) {
    const own = new Set(engine ? seen(entry, engine) : cylindersNamed(entry))
    const again = [...own].filter((n) => taken.has(n))
    if (again.length > 0) yield duplicate(yaml, [...path, 'cylinders'], again.join(', '))
    own.forEach((n) => taken.add(n))
  }
}

/** The cylinders a pickup sees. */
const seen = (entry: ChannelEntry, engine: Engine): number[] =>
  entry.cylinders === 'all'
    ? Array.from({ length: engine.cylinders }, (_, i) => i + 1)
    : cylindersNamed(entry)
