import type { CaptureEntry, Engine } from '../job/schema.ts'
import type { PickupKind } from './evidence.ts'

/** Where the pickup of every cylinder of a capture sits, as its channels state it. */
export function pickupKinds(entry: Pick<CaptureEntry, 'channels'>, engine: Engine): Map<number, PickupKind> {
  const kinds = new Map<number, PickupKind>()
  for (const { carries, cylinders } of entry.channels) {
    if (carries !== 'secondary') continue
    const seen = cylinders === undefined || cylinders === 'all' ? engine.firing_order : [cylinders].flat()
    const kind = seen.length === 1 ? 'own lead' : isPair(seen, engine) ? 'whole coil' : 'common lead'
    for (const cylinder of seen) kinds.set(cylinder, kind)
  }
  return kinds
}

/** On a wasted-spark engine a pickup of two cylinders sits on the coil that fires both. */
const isPair = (seen: readonly number[], { ignition }: Engine): boolean =>
  ignition === 'wasted-spark' && seen.length === 2
