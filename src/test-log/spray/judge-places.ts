import type { Interval } from '../../units/measured.ts'
import { meanChange, withShapeShare, type Effect } from './effect-interval.ts'
import { holm } from './holm.ts'
import { rankTest, shuffledTest, stretchesNeeded } from './rank-test.ts'
import type { ReadTrace } from './read-trace.ts'
import { stronger, type WindowScan } from './scan-window.ts'

/** One spray that counts: what its trace showed, and the trace it is ranked in. */
export interface CountingSpray {
  id: number
  place: string
  trace: string
  scan: WindowScan
  effect: Effect
}

type PlaceWhy =
  | 'ranked' // p from the rank among the trace's own stretches
  | 'short' // too few stretches for a rank that could ever count as a response
  | 'contradictory' // repeats of the place disagree; each stands alone
  | 'too-few' // too few even for the size of a change

/** Judgement of one spray, from all repeats of its place. */
export interface JudgedSpray {
  id: number
  finding: 'response' | 'no response' | 'unclear'
  why: PlaceWhy
  /** The change goes beyond chance, whatever its size. */
  certain: boolean
  /** Rank among the trace's own stretches, corrected for the number of places on the same traces. Absent for 'too-few'. */
  p: number | undefined
  /** The same against the rearranged trace: more than the rank can show, but leaning on the idle model. */
  shuffledP: number
  /** This spray's own change of speed, rpm, with its 95 % interval (search over onsets and shapes included). */
  change: Interval<'rpm'>
  /** The same for all repeats of the place together; undefined for a single spray. */
  together: Interval<'rpm'> | undefined
  /** Onset of the change after the start of the spray, in steps of the trace. */
  onset: Effect['onset']
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
 * Judges every spray. Places whose sprays share a trace are one family for the correction.
 *
 * @param traces  by file, every trace named by a spray
 */
export function judgePlaces(
  sprays: readonly CountingSpray[],
  traces: ReadonlyMap<string, ReadTrace>,
  limits: SprayLimits,
): JudgedSpray[] {
  return families(sprays).flatMap((family) => judgeTogether(family, traces, { limits, beside: [] }).judged)
}

interface Group {
  sprays: readonly CountingSpray[]
  contradictory: boolean
}

/**
 * Judges sprays that are corrected together, and corrects other tests of the same places along with them.
 *
 * @param beside  p-values of those others
 */
export function judgeTogether(
  family: readonly CountingSpray[],
  traces: ReadonlyMap<string, ReadTrace>,
  { limits, beside }: { limits: SprayLimits; beside: readonly number[] },
): { judged: JudgedSpray[]; beside: number[] } {
  const places = [...new Set(family.map((s) => s.place))]
  const bound = new Map([...traces].map(([file, t]) => [file, t.chanceScore]))
  const groups: Group[] = places.flatMap((place): readonly Group[] => {
    const repeats = family.filter((s) => s.place === place)
    const contradictory = disagree(repeats, bound)
    return contradictory
      ? repeats.map((s) => ({ sprays: [s], contradictory }))
      : [{ sprays: repeats, contradictory }]
  })
  const tests = groups.map((g) => testGroup(g, { traces, places: groups.length + beside.length, limits }))
  const corrected = holm([...tests.map((t) => t.p), ...beside])
  const shuffled = holm(tests.map((t) => t.shuffled))
  const judged = groups.flatMap((group, i) => {
    const certain =
      corrected[i]! <= limits.level * (1 + 1e-9) && shuffled[i]! <= limits.shuffledLevel * (1 + 1e-9)
    const test = { ...tests[i]!, p: corrected[i]!, shuffled: shuffled[i]!, certain, places: places.length }
    return group.sprays.map((spray) => describe(spray, { group, test, limits }))
  })
  return { judged, beside: corrected.slice(groups.length) }
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

interface GroupTest {
  p: number
  shuffled: number
  why: PlaceWhy
  stretches: number
  longerS: number
}

function testGroup(
  group: Group,
  it: { traces: ReadonlyMap<string, ReadTrace>; places: number; limits: SprayLimits },
): GroupTest {
  const { traces, places, limits } = it
  const files = [...new Set(group.sprays.map((s) => s.trace))]
  const strata = files.map((file) => {
    const trace = traces.get(file)!
    return {
      sprays: group.sprays.filter((s) => s.trace === file).map((s) => s.scan),
      among: trace.stretches,
      shuffled: trace.shuffled,
      stretchS: trace.stretchS,
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
  return { p: rank.p, shuffled: shuffledTest(strata), why: enough ? 'ranked' : 'short', stretches, longerS }
}

/**
 * Two repeats contradict each other: one goes beyond chance, the other does not in that direction, and their sizes are
 * further apart than chance explains; or both go beyond chance in opposite directions.
 */
function disagree(repeats: readonly CountingSpray[], bound: ReadonlyMap<string, number>): boolean {
  const chance = (s: CountingSpray) => bound.get(s.trace)!
  return repeats.some((a) =>
    repeats.some((b) => {
      const of = stronger(a.scan)
      if (of.score <= chance(a)) return false
      const same = of.rpm > 0 ? b.scan.up : b.scan.down
      const opposed = of.rpm > 0 ? b.scan.down : b.scan.up
      if (same.score > chance(b)) return false
      const apart =
        Math.abs(of.rpm - same.rpm) >
        Math.hypot(chance(a) * of.seRpm, same.score > 0 ? chance(b) * same.seRpm : 0)
      return apart || opposed.score > chance(b)
    }),
  )
}

function describe(
  spray: CountingSpray,
  it: { group: Group; test: GroupTest & { certain: boolean; places: number }; limits: SprayLimits },
): JudgedSpray {
  const { group, test, limits } = it
  const change = withShapeShare(spray.effect.change)
  const together =
    group.sprays.length > 1 ? withShapeShare(meanChange(group.sprays.map((s) => s.effect.change))) : undefined
  return {
    id: spray.id,
    finding: findingOf(together ?? change, test, limits),
    why: test.why !== 'too-few' && group.contradictory ? 'contradictory' : test.why,
    certain: test.certain,
    p: test.why === 'too-few' ? undefined : test.p,
    shuffledP: test.shuffled,
    change,
    together,
    onset: spray.effect.onset,
    repeats: group.sprays.length,
    places: test.places,
    stretches: test.stretches,
    longerS: test.longerS,
  }
}

/**
 * A response needs the rank. That there is none of a size worth finding needs only the interval: one of that size is
 * excluded, and what is left holds zero or is too small to count. A change that is there but not ranked stays unclear.
 */
function findingOf(
  change: Interval<'rpm'>,
  test: { certain: boolean; why: PlaceWhy },
  limits: SprayLimits,
): JudgedSpray['finding'] {
  if (test.why === 'too-few') return 'unclear'
  if (test.certain && Math.abs(change.value) >= limits.leastRpm) return 'response'
  const excluded = Math.max(Math.abs(change.low), Math.abs(change.high)) < limits.excludeRpm
  const nothing = (change.low <= 0 && change.high >= 0) || Math.abs(change.value) < limits.leastRpm
  return excluded && nothing ? 'no response' : 'unclear'
}
