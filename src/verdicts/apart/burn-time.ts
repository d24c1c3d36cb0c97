import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import type { ApartFinding } from './apart-finding.ts'
import { burnsInOrder, fellowsLike } from './fellows-like.ts'
import { percentOf, ratioToFellows } from './ratio-to-fellows.ts'
import type { ReadInput, Reading } from './reading.ts'

/** Burn time: apart from the fellows by a share of theirs, else outside of what is usual at a warm idle. */
export const burnTime: Reading = {
  figure: 'burn_ms',
  look(input) {
    const found = againstFellows(input)
    return found.length > 0 ? found : againstUsual(input)
  },
}

function againstFellows(input: ReadInput): ApartFinding[] {
  const { own, limits } = input
  const against = ratioToFellows('burnMs', fellowsLike(own, input.fellows), input)
  if (!against) return []
  const longPct = limit(limits, 'burnApartLongPct')
  const shortPct = limit(limits, 'burnApartShortPct')
  const size = percentOf(against.ratio)
  if (size.low > longPct)
    return [
      {
        figure: 'burn_ms',
        direction: 'high',
        against: 'fellows',
        size,
        limits: ['burnApartLongPct'],
        says: sentence('apart.burn-long', { size, limitPct: longPct }),
      },
    ]
  if (size.high < -shortPct)
    return [
      {
        figure: 'burn_ms',
        direction: 'low',
        against: 'fellows',
        size,
        limits: ['burnApartShortPct'],
        says: sentence('apart.burn-short', { size, limitPct: shortPct }),
      },
    ]
  return []
}

function againstUsual({ own, running, limits }: ReadInput): ApartFinding[] {
  const { burnMs } = own.figures
  if (running !== 'idle' || !burnsInOrder(own) || !burnMs.ok) return []
  const lowMs = limit(limits, 'burnShortMs')
  const highMs = limit(limits, 'burnUsualHighMs')
  const figure = { value: burnMs.value, low: burnMs.low, high: burnMs.high, unit: burnMs.unit }
  const args = { figure, lowMs, highMs }
  const sizeOf = (edge: number) =>
    percentOf({ value: figure.value / edge, low: figure.low / edge, high: figure.high / edge, unit: '1' })
  if (burnMs.low > highMs)
    return [
      {
        figure: 'burn_ms',
        direction: 'high',
        against: 'usual',
        size: sizeOf(highMs),
        limits: ['burnUsualHighMs'],
        says: sentence('apart.burn-unusual-long', args),
      },
    ]
  if (burnMs.high < lowMs)
    return [
      {
        figure: 'burn_ms',
        direction: 'low',
        against: 'usual',
        size: sizeOf(lowMs),
        limits: ['burnShortMs'],
        says: sentence('apart.burn-unusual-short', args),
      },
    ]
  return []
}
