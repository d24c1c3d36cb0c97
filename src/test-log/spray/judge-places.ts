import type { Interval } from '../../units/measured.ts'
import { holm } from './holm.ts'
import { rankTest, shuffledTest, stretchesNeeded } from './rank-test.ts'
import type { ReadTrace } from './read-trace.ts'
import { stronger, type Hit, type WindowScan } from './scan-window.ts'

/** One spray that counts: what its trace showed, and the trace it is ranked in. */
export interface CountingSpray { id: number; place: string; trace: string; scan: WindowScan }

export type PlaceWhy =
  | 'ranked'          // p from the rank among the trace's own stretches
  | 'shuffled'        // too few stretches for that; p from the trace rearranged
  | 'contradictory'   // repeats of the place disagree; each stands alone
  | 'too-few'         // too few unsprayed stretches to say anything

/** Judgement of one spray, from all repeats of its place. */
export interface JudgedSpray {
  id: number
  finding: 'response' | 'no response' | 'unclear'
  why: PlaceWhy
  /** The change goes beyond chance, whatever its size. */
  certain: boolean
  /** Corrected for the number of places on the same traces. Absent where too few stretches. */
  p: number | undefined
  /** This spray's own change of speed, rpm, with its 95 % interval (search over onsets and shapes included). */
  change: Interval<'rpm'>
  /** The same for all repeats of the place together; undefined for a single spray. */
  together: Interval<'rpm'> | undefined
  /** Onset of the change after the start of the spray, in steps of the trace. */
  latencySteps: number
  repeats: number
  places: number
  stretches: number
  /** Unsprayed trace that would allow the rank test, s; 0 where there is enough. */
  longerS: number
}

export interface SprayLimits {
  /** Largest corrected p that counts as a response. */
  level: number
  /** Largest corrected p against the rearranged trace; asked for besides, and stricter, since it leans on the idle model. */
  shuffledLevel: number
  /** Fewest unsprayed stretches of a trace to say anything. */
  minStretches: number
  /** Smallest change that counts as a response however certain it is, rpm. */
  leastRpm: number
  /** A place is called free of a response only if one of this size is excluded, rpm. */
  excludeRpm: number
}

/**
 * Part of a change by which the fitted height can differ from the real one because the real shape is none of ours
 * (other engine lag, other push of the idle control); half width, 95 %. From simulated idles with other constants.
 */
const SHAPE_SHARE = 0.25

/**
 * Judges every spray. Places whose sprays share a trace are one family for the correction.
 *
 * @param traces  by file, every trace named by a spray
 */
export function judgePlaces(
  sprays: readonly CountingSpray[], traces: ReadonlyMap<string, ReadTrace>, limits: SprayLimits,
): JudgedSpray[] {
  return families(sprays).flatMap((family) => judgeFamily(family, traces, limits))
}

interface Group { sprays: readonly CountingSpray[]; contradictory: boolean }

function judgeFamily(
  family: readonly CountingSpray[], traces: ReadonlyMap<string, ReadTrace>, limits: SprayLimits,
): JudgedSpray[] {
  const places = [...new Set(family.map((s) => s.place))]
  const bound = new Map([...traces].map(([file, t]) => [file, t.chanceScore]))
  const groups: Group[] = places.flatMap((place): readonly Group[] => {
    const repeats = family.filter((s) => s.place === place)
    const contradictory = disagree(repeats, bound)
    return contradictory ? repeats.map((s) => ({ sprays: [s], contradictory })) : [{ sprays: repeats, contradictory }]
  })
  const tests = groups.map((g) => testGroup(g, { traces, places: groups.length, limits }))
  const corrected = holm(tests.map((t) => t.p))
  const shuffled = holm(tests.map((t) => t.shuffled))
  return groups.flatMap((group, i) => {
    const certain = corrected[i]! <= limits.level * (1 + 1e-9) && shuffled[i]! <= limits.shuffledLevel * (1 + 1e-9)
    const test = { ...tests[i]!, corrected: corrected[i]!, certain, places: places.length }
    return group.sprays.map((spray) => describe(spray, { group, test, bound, limits }))
  })
}

/** Connected by traces: sprays of places that share a trace, directly or over others. */
function families(sprays: readonly CountingSpray[]): CountingSpray[][] {
  const rest = new Set(sprays)
  const found: CountingSpray[][] = []
  for (const first of sprays) {
    if (!rest.delete(first)) continue
    const family = [first]
    for (const member of family) {
      for (const other of [...rest]) {
        if (other.place === member.place || other.trace === member.trace) {
          rest.delete(other)
          family.push(other)
        }
      }
    }
    found.push(family.sort((a, b) => a.id - b.id))
  }
  return found
}

interface GroupTest { p: number; shuffled: number; why: PlaceWhy; stretches: number; longerS: number }

function testGroup(
  group: Group, it: { traces: ReadonlyMap<string, ReadTrace>; places: number; limits: SprayLimits },
): GroupTest {
  const { traces, places, limits } = it
  const files = [...new Set(group.sprays.map((s) => s.trace))]
  const strata = files.map((file) => {
    const trace = traces.get(file)!
    return {
      sprays: group.sprays.filter((s) => s.trace === file).map((s) => s.scan),
      among: trace.stretches, shuffled: trace.shuffled, stretchS: trace.stretchS,
    }
  })
  const stretches = Math.min(...strata.map((s) => s.among.length))
  const rank = rankTest(strata)
  const wanted = limits.level / places
  const enough = rank.floor <= wanted * (1 + 1e-9)
  const first = strata[0]!
  const missing = enough ? 0 : Math.max(1, stretchesNeeded(first.sprays.length, wanted) - first.among.length)
  const longerS = Math.ceil(missing * first.stretchS)
  if (stretches < limits.minStretches) return { p: 1, shuffled: 1, why: 'too-few', stretches, longerS }
  const shuffled = shuffledTest(strata)
  if (enough) return { p: Math.max(rank.p, shuffled), shuffled, why: 'ranked', stretches, longerS }
  const ahead = rank.p <= rank.floor * (1 + 1e-9)
  return { p: ahead ? shuffled : Math.max(rank.p, shuffled), shuffled, why: 'shuffled', stretches, longerS }
}

/**
 * Two repeats contradict each other: one goes beyond chance, the other does not in that direction, and their sizes are
 * further apart than chance explains; or both go beyond chance in opposite directions.
 */
function disagree(repeats: readonly CountingSpray[], bound: ReadonlyMap<string, number>): boolean {
  const chance = (s: CountingSpray) => bound.get(s.trace)!
  return repeats.some((a) => repeats.some((b) => {
    const of = stronger(a.scan)
    if (of.score <= chance(a)) return false
    const same = of.rpm > 0 ? b.scan.up : b.scan.down
    const opposed = of.rpm > 0 ? b.scan.down : b.scan.up
    if (same.score > chance(b)) return false
    const apart = Math.abs(of.rpm - same.rpm) > Math.hypot(chance(a) * of.seRpm, same.score > 0 ? chance(b) * same.seRpm : 0)
    return apart || opposed.score > chance(b)
  }))
}

function changeOf(hit: Hit, bound: number): Interval<'rpm'> {
  const half = Math.hypot(bound * hit.seRpm, SHAPE_SHARE * hit.rpm)
  return { value: hit.rpm, low: hit.rpm - half, high: hit.rpm + half, unit: 'rpm' }
}

/** Mean of the repeats' changes in the place's direction, weighted by their certainty. */
function combine(hits: readonly Hit[], bound: number): Interval<'rpm'> {
  const weights = hits.map((h) => 1 / h.seRpm ** 2)
  const sum = weights.reduce((a, w) => a + w, 0)
  const value = hits.reduce((a, h, i) => a + weights[i]! * h.rpm, 0) / sum
  const half = Math.hypot(bound / Math.sqrt(sum), SHAPE_SHARE * value)
  return { value, low: value - half, high: value + half, unit: 'rpm' }
}

function describe(
  spray: CountingSpray,
  it: { group: Group; test: GroupTest & { corrected: number; certain: boolean; places: number }; bound: ReadonlyMap<string, number>; limits: SprayLimits },
): JudgedSpray {
  const { group, test, bound, limits } = it
  const sum = (pick: (s: WindowScan) => number) => group.sprays.reduce((a, s) => a + pick(s.scan), 0)
  const upward = sum((s) => s.up.score) >= sum((s) => s.down.score)
  const own = upward ? spray.scan.up : spray.scan.down
  const hits = group.sprays.map((s) => (upward ? s.scan.up : s.scan.down)).filter((h) => h.score > 0)
  const widest = Math.max(...group.sprays.map((s) => bound.get(s.trace)!))
  const change = changeOf(own.score > 0 ? own : stronger(spray.scan), bound.get(spray.trace)!)
  const together = hits.length > 1 ? combine(hits, widest) : undefined
  const judged = together ?? change
  const excluded = Math.max(Math.abs(judged.low), Math.abs(judged.high)) < limits.excludeRpm
  const tooFew = test.why === 'too-few'
  const responds = test.certain && Math.abs(judged.value) >= limits.leastRpm
  const finding = tooFew ? 'unclear' : responds ? 'response' : excluded ? 'no response' : 'unclear'
  return {
    id: spray.id, finding, why: !tooFew && group.contradictory ? 'contradictory' : test.why, certain: test.certain, p: tooFew ? undefined : test.corrected,
    change, together, latencySteps: (own.score > 0 ? own : stronger(spray.scan)).onset, repeats: group.sprays.length, places: test.places,
    stretches: test.stretches, longerS: test.longerS,
  }
}
