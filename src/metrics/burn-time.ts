import { absent } from '../units/measured.ts'
import type { EventFlag, EventWave } from '../ignition/event.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { PICKED_EARLY_MS, PICKING_SPREAD_MS } from './spark-line.ts'

/**
 * Burn time: breakdown to spark end.
 *
 * @param wave   one event; breakdown and sparkEnd are fractional samples
 * @param flags  `partial` bars it; a clipped line does not
 * @returns      ms, corrected for an end that is picked a little early; u from sampling (each instant lies evenly between
 *               two samples) and from picking the end, which is not sharp. Clock error is added per cylinder.
 *               Absent: `partial`, `no-spark-line`.
 * @source       definition: shop-practice; even spread between samples: JCGM 100:2008, 4.3.7; correction: 3.2.4
 */
export function burnTimeMs(wave: EventWave, flags: readonly EventFlag[]): EventFigure<'ms'> {
  if (flags.includes('partial')) return absent('partial')
  if (wave.sparkEnd === undefined) return absent('no-spark-line')
  const sampleMs = wave.sampleS * 1000
  return withBudget((wave.sparkEnd - wave.breakdown) * sampleMs + PICKED_EARLY_MS, 'ms', [
    { source: 'sampling', u: sampleMs * Math.sqrt(2 / 12) },
    { source: 'method', u: PICKING_SPREAD_MS },
  ])
}
