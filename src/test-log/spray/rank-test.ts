import { makeRandom } from '../../maths/random.ts'
import type { WindowScan } from './scan-window.ts'

/** The sprays of one place on one trace, with the stretches they are ranked among. */
export interface Stratum {
  sprays: readonly WindowScan[]
  among: readonly WindowScan[]
}

export interface RankResult {
  /** Share of all choices of windows that score as high as the sprayed ones, these included. */
  p: number
  /** Smallest p these numbers of windows allow. */
  floor: number
}

type Sums = readonly { up: number; down: number }[]

/** Choices up to here are all counted; beyond, this many are drawn at random with a fixed seed. */
const MOST_CHOICES = 20000
const SEED = 31250

/**
 * Rank test of a place: if spraying did nothing, the sprayed windows are any choice of as many windows of the trace.
 * The score of a choice is the larger of its summed upward and summed downward scores, so that repeats must agree in
 * direction to add up. Traces are strata: windows change places only within their own.
 *
 * @source permutation test with strata: Hollander and Wolfe, Nonparametric Statistical Methods, ch. 4 (principle)
 */
export function rankTest(strata: readonly Stratum[]): RankResult {
  const observed = score(strata.map((s) => total(s.sprays)))
  const sizes = strata.map((s) => choose(s.sprays.length + s.among.length, s.sprays.length))
  const choices = sizes.reduce((a, b) => a * b, 1)
  if (choices <= MOST_CHOICES) {
    const all = strata.map((s) => sumsOfChoices([...s.sprays, ...s.among], s.sprays.length))
    const sums = all.reduce(everyPair)
    return {
      p: sums.filter((s) => Math.max(s.up, s.down) >= observed - 1e-9).length / choices,
      floor: 1 / choices,
    }
  }
  return drawChoices(strata, observed)
}

/**
 * Rank of the place's score among as many shuffled windows, drawn index by index so that repeats are independent.
 */
export function shuffledTest(
  strata: readonly { sprays: readonly WindowScan[]; shuffled: readonly WindowScan[] }[],
): number {
  const observed = score(strata.map((s) => total(s.sprays)))
  const draws = Math.min(...strata.map((s) => s.shuffled.length))
  const repeats = Math.max(...strata.map((s) => s.sprays.length))
  const apart = Math.floor(draws / (repeats + 1))
  let atLeast = 0
  for (let d = 0; d < draws; d++) {
    let up = 0
    let down = 0
    strata.forEach(({ sprays, shuffled }, k) => {
      for (let r = 0; r < sprays.length; r++) {
        const drawn = shuffled[(d + r * apart + 17 * k) % shuffled.length]!
        up += drawn.up.score
        down += drawn.down.score
      }
    })
    if (Math.max(up, down) >= observed) atLeast++
  }
  return (1 + atLeast) / (1 + draws)
}

/** Fewest stretches of one trace with which `repeats` sprays can reach p <= `wanted`. */
export function stretchesNeeded(repeats: number, wanted: number): number {
  let n = 1
  while (1 / choose(n + repeats, repeats) > wanted * (1 + 1e-9)) n++
  return n
}

const total = (scans: readonly WindowScan[]) =>
  scans.reduce((sum, s) => ({ up: sum.up + s.up.score, down: sum.down + s.down.score }), { up: 0, down: 0 })

const score = (sums: Sums): number =>
  Math.max(
    sums.reduce((a, s) => a + s.up, 0),
    sums.reduce((a, s) => a + s.down, 0),
  )

const everyPair = (a: Sums, b: Sums): Sums =>
  a.flatMap((x) => b.map((y) => ({ up: x.up + y.up, down: x.down + y.down })))

function choose(n: number, k: number): number {
  let c = 1
  for (let i = 1; i <= k; i++) c = (c * (n - k + i)) / i
  return Math.round(c)
}

function sumsOfChoices(windows: readonly WindowScan[], k: number): Sums {
  if (k === 0) return [{ up: 0, down: 0 }]
  return windows.flatMap((w, i) =>
    sumsOfChoices(windows.slice(i + 1), k - 1).map((s) => ({
      up: s.up + w.up.score,
      down: s.down + w.down.score,
    })),
  )
}

function drawChoices(strata: readonly Stratum[], observed: number): RankResult {
  const random = makeRandom(SEED)
  let atLeast = 1
  for (let d = 1; d < MOST_CHOICES; d++) {
    const drawn = strata.map((s) => {
      const pool = [...s.sprays, ...s.among]
      return total(s.sprays.map(() => pool.splice(random.integer(pool.length), 1)[0]!))
    })
    if (score(drawn) >= observed - 1e-9) atLeast++
  }
  return { p: atLeast / MOST_CHOICES, floor: 1 / MOST_CHOICES }
}
