import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import { fellowsLike } from './fellows-like.ts'
import type { Reading } from './reading.ts'

/** Fewer than this share of the fellows' oscillations is few, whatever their number. */
const FEW_SHARE = 0.5

/**
 * Coil oscillations: fewer than the fellows' by more than a count may differ, and less than half of theirs. Few or none
 * speak of a winding, or of a gap that goes on leaking the energy away. More than the fellows' are no fault.
 */
export const oscillations: Reading = {
  figure: 'coil_cycles',
  look(input) {
    const { own, limits } = input
    const { coilCycles } = own.figures
    const others = fellowsLike(own, input.fellows).flatMap(({ figures: { coilCycles: f } }) =>
      f.ok ? [f] : [],
    )
    if (!coilCycles.ok || others.length === 0) return []
    const usual = {
      value: median(others.map((f) => f.value))!,
      low: median(others.map((f) => f.low))!,
      high: median(others.map((f) => f.high))!,
    }
    const fewerCycles = limit(limits, 'ringApartCycles')
    const { value, low, high, unit } = coilCycles
    if (usual.low - high <= fewerCycles || high >= FEW_SHARE * usual.low) return []
    return [
      {
        figure: 'coil_cycles',
        direction: 'low',
        against: 'fellows',
        size: { value: value - usual.value, low: low - usual.high, high: high - usual.low, unit },
        limits: ['ringApartCycles'],
        says: sentence('apart.oscillations-few', { cycles: value, usual: usual.value }),
      },
    ]
  },
}
