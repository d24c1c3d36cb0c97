import { mad, MAD_TO_SD } from './mad.ts'
import { median } from './median.ts'
import { K95, normalCdf } from './normal.ts'

/** Standard error of a median of n normal values, in units of sd / sqrt(n). */
const MEDIAN_EFFICIENCY = Math.sqrt(Math.PI / 2)
/** Standard deviations between groups that are weighed: none, and these shares of the largest spread in sight. */
const GRID = Array.from({ length: 60 }, (_, i) => 4 * 1.12 ** (i - 59))
/** Groups are taken to differ by about this share of what their members scatter, until they show otherwise. */
const USUAL_SHARE = 0.5
const HALVINGS = 50

/**
 * What it adds to a median's 95 % interval that its values come in groups which may differ as wholes: recordings of one
 * engine, one after the other. Half width, to be joined with the interval's own as the root of the sum of squares.
 *
 * A few groups do not show how much groups differ, so every standard deviation between them is weighed by how well it
 * explains the groups' medians (a half-Cauchy prior of half the members' scatter; flat for the middle), and the interval
 * is that of the mixture.
 *
 * @param groups  values of each group; empty ones are passed over
 * @returns       0 for fewer than two groups
 * @source        Gelman 2006, Bayesian Analysis 1, 515-534 (half-Cauchy prior of a few groups' spread)
 */
export function betweenGroups(groups: readonly (readonly number[])[]): number {
  const filled = groups.filter((g) => g.length > 0)
  const count = filled.reduce((sum, g) => sum + g.length, 0)
  if (filled.length < 2) return 0
  const middles = filled.map((g) => median(g)!)
  const residuals = filled.flatMap((g, i) => g.map((v) => v - middles[i]!))
  const scatter = MAD_TO_SD * (mad(residuals) ?? 0) * Math.sqrt(count / Math.max(1, count - filled.length))
  const range = Math.max(...middles) - Math.min(...middles)
  const scale = scatter > 0 ? USUAL_SHARE * scatter : range
  if (scale === 0) return 0
  const errors = filled.map((g) => (MEDIAN_EFFICIENCY * scatter) ** 2 / g.length)
  const largest = Math.max(scatter, range)
  const fits = [0, ...GRID.map((share) => share * largest)].map((between) =>
    fitOf(between, { middles, errors, scale, floor: (1e-6 * largest) ** 2 }),
  )
  // Steps of the grid grow with it: a point stands for a stretch as long as itself.
  const best = fits.reduce((most, f) => Math.max(most, f.logWeight), -Infinity)
  const weights = fits.map((f, i) => Math.exp(f.logWeight - best) * (i === 0 ? GRID[0]! : GRID[i - 1]!))
  const alone = fits[0]!
  const half = halfWidth(fits, weights, alone.centre)
  return Math.sqrt(Math.max(0, half ** 2 - (K95 * alone.sd) ** 2))
}

interface Fit {
  centre: number
  sd: number
  logWeight: number
}

/** Middle of all groups given how much they differ, and how likely the groups' medians are then. */
function fitOf(
  between: number,
  {
    middles,
    errors,
    scale,
    floor,
  }: { middles: readonly number[]; errors: readonly number[]; scale: number; floor: number },
): Fit {
  const weights = errors.map((e) => 1 / (between ** 2 + e + floor))
  const total = weights.reduce((sum, w) => sum + w, 0)
  const centre = middles.reduce((sum, m, i) => sum + weights[i]! * m, 0) / total
  const misfit = middles.reduce((sum, m, i) => sum + weights[i]! * (m - centre) ** 2, 0)
  const logs = weights.reduce((sum, w) => sum + Math.log(w), 0)
  return {
    centre,
    sd: 1 / Math.sqrt(total),
    logWeight: (logs - Math.log(total) - misfit) / 2 - Math.log(1 + (between / scale) ** 2),
  }
}

/** Half width of the interval about a centre that holds 95 % of a mixture of normals. */
function halfWidth(fits: readonly Fit[], weights: readonly number[], about: number): number {
  const total = weights.reduce((sum, w) => sum + w, 0)
  const held = (half: number): number =>
    fits.reduce(
      (sum, { centre, sd }, i) =>
        sum +
        (weights[i]! / total) *
          (normalCdf((about + half - centre) / sd) - normalCdf((about - half - centre) / sd)),
      0,
    )
  let low = 0
  let high = Math.max(...fits.map(({ centre, sd }) => Math.abs(centre - about) + 5 * sd))
  for (let i = 0; i < HALVINGS; i++) {
    const mid = (low + high) / 2
    if (held(mid) < 0.95) low = mid
    else high = mid
  }
  return (low + high) / 2
}
