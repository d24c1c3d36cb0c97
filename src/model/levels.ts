/** True levels of one burn at the pickup, without hash, noise or recorder. */
export interface BurnLevels {
  burnMs: number
  /** At 10, 50 and 90 % of the burn. */
  startKv: number
  midKv: number
  lateKv: number
  lateRiseKv: number
  lateRisePct: number
  earlyChangeKv: number
  /** Least squares over 10-50 % and over 50-90 % of the burn. */
  earlySlopeKvPerMs: number
  lateSlopeKvPerMs: number
}

const SLOPE_POINTS = 81

/** Least-squares slope of a smooth function over a stretch, kV/ms; points at even steps. */
function slopeKvPerMs(kvAt: (tS: number) => number, stretch: { fromS: number; toS: number }): number {
  const stepMs = ((stretch.toS - stretch.fromS) / (SLOPE_POINTS - 1)) * 1e3
  const middle = (SLOPE_POINTS - 1) / 2
  let cross = 0
  let square = 0
  for (let i = 0; i < SLOPE_POINTS; i++) {
    const x = (i - middle) * stepMs
    cross += x * kvAt(stretch.fromS + (i * stepMs) / 1e3)
    square += x * x
  }
  return cross / square
}

/** Reads the levels off a smooth line; `kvAt` takes s after breakdown. */
export function burnLevels(kvAt: (tS: number) => number, burnS: number): BurnLevels {
  const startKv = kvAt(0.1 * burnS)
  const midKv = kvAt(0.5 * burnS)
  const lateKv = kvAt(0.9 * burnS)
  return {
    burnMs: burnS * 1e3,
    startKv,
    midKv,
    lateKv,
    lateRiseKv: lateKv - midKv,
    lateRisePct: (100 * (lateKv - midKv)) / midKv,
    earlyChangeKv: midKv - startKv,
    earlySlopeKvPerMs: slopeKvPerMs(kvAt, { fromS: 0.1 * burnS, toS: 0.5 * burnS }),
    lateSlopeKvPerMs: slopeKvPerMs(kvAt, { fromS: 0.5 * burnS, toS: 0.9 * burnS }),
  }
}
