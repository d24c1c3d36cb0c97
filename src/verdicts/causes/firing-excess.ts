import { median } from '../../maths/median.ts'
import type { CylinderMeasures } from '../../metrics/figures.ts'
import { absent } from '../../units/measured.ts'
import type { Available } from '../evidence.ts'

/** One other cylinder cannot say which of the two is odd. */
const LEAST_OTHERS = 2

/**
 * Firing voltage of a cylinder less the median of its fellows', kV, with its own interval; the median of several has
 * less scatter than one and is taken as known.
 *
 * @param others  other cylinders of the same stage and condition
 * @returns absent where the cylinder has no figure, or fewer than two of the others have one
 */
export function firingExcessKv(own: CylinderMeasures, others: readonly CylinderMeasures[]): Available {
  const { firingKv } = own.figures
  const values = others.flatMap((o) => (o.figures.firingKv.ok ? [o.figures.firingKv.value] : []))
  if (!firingKv.ok) return firingKv
  if (values.length < LEAST_OTHERS) return absent('not-applicable')
  const middle = median(values)!
  return {
    ok: true,
    interval: {
      value: firingKv.value - middle,
      low: firingKv.low - middle,
      high: firingKv.high - middle,
      unit: 'kV',
    },
  }
}
