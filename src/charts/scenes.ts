import type { DrawnCylinder, DrawnTraces } from '../records/drawn-traces.ts'
import type { CylinderRecord, Result } from '../records/result.ts'

/**
 * Cylinders that belong in one picture: one stage, condition and engine temperature. Several captures join in one scene
 * when each saw other cylinders (a pickup a cylinder or a pair); a repeat of the same cylinders opens a scene of its own.
 */
export interface Scene {
  /** Unique in a report, fit for a file name. */
  id: string
  stage: 'before' | 'after'
  condition: string
  engine: 'warm' | 'cold'
  /** 1 for the first scene of its stage, condition and temperature, 2 for a repeat. */
  turn: number
  captures: readonly string[]
  /** Ascending. */
  cylinders: readonly SceneCylinder[]
}

/** One cylinder of a scene: its judged figures, its lines, or both. */
export interface SceneCylinder {
  cylinder: number
  record: CylinderRecord | undefined
  drawn: DrawnCylinder | undefined
}

const slug = (words: string) =>
  words
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
const sameSetting = (a: Shown, b: Shown) =>
  a.stage === b.stage && a.condition === b.condition && a.engine === b.engine

/** A capture, or several taken together: what a scene asks of either. */
interface Shown {
  file: string
  stage: 'before' | 'after'
  condition: string
  engine: 'warm' | 'cold'
  /** Capture whose lines are drawn: of several the first. */
  drawnFrom: string
}

/** What scenes are made of: pools, and the captures whose cylinders no pool speaks for. */
function shownOf(result: Result): Shown[] {
  const pools = result.pools ?? []
  const speaks = (file: string, cylinder: number): boolean =>
    pools.some(
      (p) =>
        p.files.includes(file) &&
        result.cylinders.some((c) => c.capture === p.capture && c.cylinder === cylinder),
    )
  const captures = result.captures.filter(({ file }) => {
    const own = result.cylinders.filter((c) => c.capture === file)
    return own.length === 0 || own.some((c) => !speaks(file, c.cylinder))
  })
  return [
    ...pools.map(({ capture, ...pool }) => ({ ...pool, file: capture, drawnFrom: pool.files[0]! })),
    ...captures.map((c) => ({ ...c, drawnFrom: c.file })),
  ]
}

function cylindersOf(capture: Shown, result: Result, traces: DrawnTraces): SceneCylinder[] {
  const records = result.cylinders.filter((c) => c.capture === capture.file && c.stage === capture.stage)
  const numbersSeen = new Set(records.map((c) => c.cylinder))
  const drawn = traces.sparkLines.filter(
    (c) =>
      c.capture === capture.drawnFrom &&
      c.stage === capture.stage &&
      (capture.drawnFrom === capture.file || numbersSeen.has(c.cylinder)),
  )
  const numbers = new Set([...records, ...drawn].map((c) => c.cylinder))
  return [...numbers].map((cylinder) => ({
    cylinder,
    record: records.find((c) => c.cylinder === cylinder),
    drawn: drawn.find((c) => c.cylinder === cylinder),
  }))
}

interface Group {
  captures: Shown[]
  cylinders: SceneCylinder[]
}

/** Captures into groups: each joins the first group of its setting that has none of its cylinders yet. */
function group(result: Result, traces: DrawnTraces): Group[] {
  const groups: Group[] = []
  for (const capture of shownOf(result)) {
    const cylinders = cylindersOf(capture, result, traces)
    if (cylinders.length === 0) continue
    const seen = (g: Group) => g.cylinders.some((c) => cylinders.some((d) => d.cylinder === c.cylinder))
    const home = groups.find((g) => sameSetting(g.captures[0]!, capture) && !seen(g))
    if (home) {
      home.captures.push(capture)
      home.cylinders.push(...cylinders)
    } else groups.push({ captures: [capture], cylinders })
  }
  return groups
}

/** All scenes of a result, before first, each stage in the order of its captures. */
export function scenesOf(result: Result, traces: DrawnTraces): Scene[] {
  const groups = group(result, traces)
  const scenes = groups.map(({ captures, cylinders }, i): Scene => {
    const { stage, condition, engine } = captures[0]!
    const turn = 1 + groups.slice(0, i).filter((g) => sameSetting(g.captures[0]!, captures[0]!)).length
    const id = [stage, slug(condition), engine, ...(turn > 1 ? [String(turn)] : [])].join('-')
    return {
      id,
      stage,
      condition,
      engine,
      turn,
      captures: captures.map((c) => c.drawnFrom),
      cylinders: cylinders.toSorted((a, b) => a.cylinder - b.cylinder),
    }
  })
  return [...scenes.filter((s) => s.stage === 'before'), ...scenes.filter((s) => s.stage === 'after')]
}

/** A scene before the repair and its counterpart after it: same condition, temperature and turn. */
export interface ScenePair {
  before: Scene
  after: Scene
}

/** Pairs in the order of the scenes before the repair; scenes without counterpart are left to their own charts. */
export function scenePairs(scenes: readonly Scene[]): ScenePair[] {
  return scenes
    .filter((s) => s.stage === 'before')
    .flatMap((before) => {
      const after = scenes.find(
        (s) =>
          s.stage === 'after' &&
          s.condition === before.condition &&
          s.engine === before.engine &&
          s.turn === before.turn,
      )
      return after ? [{ before, after }] : []
    })
}
