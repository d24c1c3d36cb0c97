import type { LimitTable } from '../limits/limits.ts'
import type { Proof } from '../records/proof.ts'
import type { Score } from './score-reading.ts'

/** Figures of a score that have a limit, in the order they are printed. */
export const PROVED = [
  'missedPct',
  'falseEvents',
  'wrongCylinders',
  'wrongKinds',
  'burnErrorPct',
  'midErrorPct',
  'lateRiseErrorKv',
  'intervalsMissed',
  'wrongVerdicts',
] as const satisfies readonly (keyof Score)[]

export interface ScoredCapture {
  name: string
  origin: string
  score: Score
}

/** Puts scores together: the worst of each figure, and whether all hold. */
export function makeProof(
  scored: readonly ScoredCapture[],
  limits: LimitTable<(typeof PROVED)[number]>,
  about: { version: string; programSha256: string; date: string },
): Proof {
  const worst = PROVED.map((figure) => {
    const most = scored.reduce((a, b) => (b.score[figure] > a.score[figure] ? b : a))
    return {
      figure,
      unit: limits[figure].unit,
      error: rounded(most.score[figure]),
      limit: limits[figure].value,
      capture: most.name,
    }
  })
  return {
    format: 1,
    program: { name: 'burnline', version: about.version, sha256: about.programSha256 },
    date: about.date,
    holds: worst.every((w) => w.error <= w.limit),
    worst,
    captures: scored.map(({ name, origin, score }) => ({
      name,
      origin,
      events: score.due,
      figures: Object.fromEntries(PROVED.map((f) => [f, rounded(score[f])])),
    })),
  }
}

/** Stands for the error of a figure that should have been measured and was not: JSON has no infinity. */
const NOT_MEASURED = 9999

const rounded = (value: number): number => Number(Math.min(value, NOT_MEASURED).toPrecision(4))
