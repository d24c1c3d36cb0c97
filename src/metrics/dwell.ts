import type { EventWave } from '../ignition/event.ts'
import { absent } from '../units/measured.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { riseOf } from './firing-rise.ts'

/**
 * Dwell: from the step at dwell start to the start of the firing line's rise.
 *
 * @param wave  one event; dwellStart is a fractional sample, where the pattern or a primary channel shows it
 * @returns     ms; u (k = 1): each instant lies evenly between two samples. Absent: `not-visible`.
 * @source      definition: shop-practice; JCGM 100:2008, 4.3.7
 */
export function dwellMs(wave: EventWave): EventFigure<'ms'> {
  if (wave.dwellStart === undefined) return absent('not-visible')
  const sampleMs = wave.sampleS * 1000
  const end = riseOf(wave).foot
  if (end <= wave.dwellStart) return absent('not-visible')
  return withBudget((end - wave.dwellStart) * sampleMs, 'ms', [
    { source: 'sampling', u: sampleMs * Math.sqrt(2 / 12) },
  ])
}
