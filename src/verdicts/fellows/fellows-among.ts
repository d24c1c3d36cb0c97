import type { CaptureEntry } from '../../job/schema.ts'
import type { CylinderMeasures } from '../../metrics/figures.ts'
import type { PickupKind } from '../evidence.ts'

/** What of a capture says whether its cylinders compare with another's. */
export interface Comparable {
  entry: Pick<CaptureEntry, 'condition' | 'engine'>
  /** Where each cylinder's pickup sits; a common lead where not stated. */
  pickups?: ReadonlyMap<number, PickupKind>
}

export const pickupOf = (m: CylinderMeasures, captures: ReadonlyMap<string, Comparable>): PickupKind =>
  captures.get(m.capture)!.pickups?.get(m.cylinder) ?? 'common lead'

/**
 * The fellows of a cylinder: the others of its capture; those it does not show, as another capture of the same stage,
 * condition, warmth and kind of pickup shows them (cylinders recorded one after another), the one with the most events.
 */
export function fellowsAmong(
  measures: readonly CylinderMeasures[],
  captures: ReadonlyMap<string, Comparable>,
): (own: CylinderMeasures) => CylinderMeasures[] {
  const rank = (m: CylinderMeasures, own: CylinderMeasures) =>
    m.capture === own.capture ? Number.POSITIVE_INFINITY : m.events
  return (own) => {
    const best = new Map<number, CylinderMeasures>()
    for (const m of measures) {
      if (m.cylinder === own.cylinder || m.stage !== own.stage) continue
      if (!sameRunning(captures.get(m.capture)!, captures.get(own.capture)!)) continue
      if (pickupOf(m, captures) !== pickupOf(own, captures)) continue
      const standing = best.get(m.cylinder)
      if (!standing || rank(m, own) > rank(standing, own)) best.set(m.cylinder, m)
    }
    return [...best.values()]
  }
}

const sameRunning = ({ entry: a }: Comparable, { entry: b }: Comparable): boolean =>
  a.condition === b.condition && a.engine === b.engine
