import type { Delineated } from './delineate.ts'

/** Ignition systems whose patterns this method cannot judge. Texts: `refusal.<word>`. */
export type Unsupported = 'capacitor-discharge' | 'multi-strike'

/** A capacitor discharge burns 0.05 to 0.3 ms; an inductive one hardly under 0.5 (common practice, no source). */
const LONGEST_CAPACITOR_BURN_S = 0.35e-3
/** Fewest sparks on which a system is recognised. */
const LEAST_SPARKS = 4
/** Strikes of one firing follow each other within this share of the pause to the next firing, and within this time. */
const STRIKE_SHARE = 0.4
const LONGEST_STRIKE_GAP_S = 6e-3
/** The pause is looked for among so many gaps either way: no system strikes more often in one firing. */
const MOST_STRIKES = 5
/** ... and so in at least this share of the firings. */
const LEAST_STRUCK_SHARE = 0.3

/**
 * Recognises capacitor discharge by its short burn in nearly every event, and multi-strike by several full sparks in
 * each firing. One cylinder alone with a short burn is a fault, not a system.
 *
 * @param events  of one channel, in order of time
 */
export function unsupportedIgnition(events: readonly Delineated[], sampleS: number): Unsupported | undefined {
  const sparks = events.filter((e) => e.sparkEnd !== undefined && !e.partial)
  if (sparks.length < LEAST_SPARKS) return undefined
  if (multiStrike(sparks, sampleS)) return 'multi-strike'
  const burns = sparks.map((e) => (e.sparkEnd! - e.breakdown) * sampleS).sort((a, b) => a - b)
  const nearlyAll = burns[Math.floor(0.9 * (burns.length - 1))]!
  const charged = events.filter((e) => e.dwellStart !== undefined).length > 0.5 * events.length
  return nearlyAll < LONGEST_CAPACITOR_BURN_S && !charged ? 'capacitor-discharge' : undefined
}

function multiStrike(sparks: readonly Delineated[], sampleS: number): boolean {
  const gaps = sparks.slice(1).map((e, i) => (e.breakdown - sparks[i]!.breakdown) * sampleS)
  const pauseNear = (i: number): number =>
    gaps.slice(Math.max(0, i - MOST_STRIKES), i + MOST_STRIKES + 1).reduce((a, b) => Math.max(a, b), 0)
  const again = gaps.filter(
    (gap, i) => gap < LONGEST_STRIKE_GAP_S && gap < STRIKE_SHARE * pauseNear(i),
  ).length
  return again >= LEAST_STRUCK_SHARE * (sparks.length - again)
}
