import type { QualityRemark } from '../../ignition/event.ts'
import type { CaptureEntry, Engine } from '../../job/schema.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { CylinderMeasures, SpeedMeasures } from '../../metrics/figures.ts'
import type { PickupKind } from '../evidence.ts'
import type { RemarkCode } from '../../texts/remark-words.ts'
import type { QualityFacts } from '../../metrics/quality/facts.ts'

/** What a gate may look at: how the capture was taken, facts on its quality, its figures. No samples. */
export interface GateInput {
  entry: Pick<CaptureEntry, 'condition' | 'engine'>
  engine: Pick<Engine, 'strokes'>
  /** Where each cylinder's pickup sits; a common lead where not stated. */
  pickups?: ReadonlyMap<number, PickupKind>
  facts: QualityFacts
  speed: SpeedMeasures
  cylinders: readonly CylinderMeasures[]
}

/**
 * One gate: what a capture must be fit for before it is judged. Its remark says what was found, what that forbids and
 * what to record instead (texts/remark-words.ts); where it forbids a verdict, the same table says why in a few words.
 */
export interface Gate {
  id: RemarkCode
  /** Keys of templates/limits.yaml. */
  limits: readonly string[]
  /** Keys of templates/sources.yaml. */
  sources: readonly string[]
  /** Remarks, one a channel or group of cylinders concerned; none where the capture passes. */
  look: (input: GateInput, limits: Limits) => QualityRemark[]
}

/** What a gate finds; its remark bears the gate's id. */
export type Finding = Omit<QualityRemark, 'code'>

/** Narrows `look` to the limits the gate declares. */
export function defineGate<L extends string>(
  gate: Omit<Gate, 'limits' | 'look'> & {
    limits: readonly L[]
    look: (input: GateInput, limits: Readonly<Record<L, number>>) => Finding[]
  },
): Gate {
  return {
    ...gate,
    look: (input, limits) => {
      const values = Object.fromEntries(gate.limits.map((key) => [key, limit(limits, key)])) as Record<
        L,
        number
      >
      return gate.look(input, values).map((finding) => ({ code: gate.id, ...finding }))
    },
  }
}

/** The cylinders of a channel, where it names them. */
export const concerning = (cylinders: readonly number[] | undefined): Pick<QualityRemark, 'cylinders'> =>
  cylinders ? { cylinders } : {}
