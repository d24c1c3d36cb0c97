import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import type { Interval } from '../../units/measured.ts'
import type { ApartFinding } from './apart-finding.ts'
import { burnsInOrder, fellowsLike } from './fellows-like.ts'
import { percentOf, ratioToFellows, type AgainstFellows } from './ratio-to-fellows.ts'
import type { ReadInput, Reading } from './reading.ts'

/**
 * Firing voltage: apart from the fellows by a share of theirs or, at idle, by more kV than even cylinders differ; else
 * outside of what is usual at a warm idle. On a wasted-spark engine half of the plugs fire against their usual
 * direction and need more: like direction is compared with like; where that leaves one fellow alone, the cylinder has to
 * stand apart from the others too, by more than the direction may do.
 */
export const firingVoltage: Reading = {
  figure: 'firing_kv',
  look(input) {
    if (!input.firingKnown) return []
    const found = againstFellows(input)
    return found.length > 0 ? found : againstUsual(input)
  },
}

function againstFellows(input: ReadInput): ApartFinding[] {
  const { own, limits } = input
  const fellows = fellowsLike(own, input.fellows)
  const low = 1 - limit(limits, 'firingApartLowPct') / 100
  const high = 1 + limit(limits, 'firingApartHighPct') / 100
  const turned = 1 + limit(limits, 'firingPolarityPct') / 100
  if (own.polarity === undefined)
    return stated(input, ratioToFellows('firingKv', fellows, input), { low, high })
  const alike = fellows.filter((f) => f.polarity === own.polarity)
  const first = stated(input, ratioToFellows('firingKv', alike, input), { low, high })
  if (alike.length >= 2 || first.length === 0) return first
  const rest = fellows.filter((f) => f.polarity !== own.polarity)
  const beside = ratioToFellows('firingKv', rest, input)
  const holds = beside && (beside.ratio.low > turned || beside.ratio.high < 1 / turned)
  return holds ? first : []
}

function stated(
  { running, kvKnown, limits }: ReadInput,
  against: AgainstFellows | undefined,
  { low, high }: { low: number; high: number },
): ApartFinding[] {
  if (!against) return []
  const { ratio, difference } = against
  const evenKv = limit(limits, 'firingApartKv')
  const size = percentOf(ratio)
  if (ratio.low > high) {
    const key = 'firingApartHighPct'
    return [
      finding('high', size, [key], sentence('apart.firing-high', { size, limitPct: limit(limits, key) })),
    ]
  }
  if (ratio.high < low) {
    const key = 'firingApartLowPct'
    return [finding('low', size, [key], sentence('apart.firing-low', { size, limitPct: limit(limits, key) }))]
  }
  if (!kvKnown || running !== 'idle') return []
  if (difference.low > evenKv)
    return [
      finding(
        'high',
        difference,
        ['firingApartKv'],
        sentence('apart.firing-high-kv', { size: difference, limitKv: evenKv }),
      ),
    ]
  if (difference.high < -evenKv)
    return [
      finding(
        'low',
        difference,
        ['firingApartKv'],
        sentence('apart.firing-low-kv', { size: difference, limitKv: evenKv }),
      ),
    ]
  return []
}

const finding = (
  direction: ApartFinding['direction'],
  size: Interval,
  limits: readonly string[],
  says: ApartFinding['says'],
): ApartFinding => ({ figure: 'firing_kv', direction, against: 'fellows', size, limits, says })

/** Of what is usual at a warm idle on one gap of known height; a lean or falling line moves its firing voltage by itself. */
function againstUsual({ own, pickup, running, kvKnown, limits }: ReadInput): ApartFinding[] {
  const { firingKv } = own.figures
  if (!kvKnown || running !== 'idle' || pickup === 'whole coil') return []
  if (!burnsInOrder(own) || !firingKv.ok) return []
  const lowKv = limit(limits, 'firingUsualLowKv')
  const highKv = limit(limits, 'firingUsualHighKv')
  const figure = { value: firingKv.value, low: firingKv.low, high: firingKv.high, unit: firingKv.unit }
  const args = { figure, lowKv, highKv }
  const of = (direction: 'high' | 'low', key: string, edge: number): ApartFinding => ({
    figure: 'firing_kv',
    direction,
    against: 'usual',
    size: percentOf({
      value: figure.value / edge,
      low: figure.low / edge,
      high: figure.high / edge,
      unit: '1',
    }),
    limits: [key],
    says: sentence(direction === 'high' ? 'apart.firing-unusual-high' : 'apart.firing-unusual-low', args),
  })
  if (firingKv.low > highKv) return [of('high', 'firingUsualHighKv', highKv)]
  if (firingKv.high < lowKv) return [of('low', 'firingUsualLowKv', lowKv)]
  return []
}
