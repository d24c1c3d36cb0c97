import type { Says } from '../test-log/findings.ts'
import type { Basis } from '../verdicts/define-rule.ts'
import type { Running } from '../verdicts/running.ts'
import type { Certainty, Direction, FindingKind, FindingOrder, FindingState, Scope } from './words.ts'

/** Where on the engine a finding lies; the cylinders are named for every scope that has them. */
export interface Where {
  scope: Scope
  bank: string | undefined
  cylinders: readonly number[]
  /** In the technician's words. */
  place: string | undefined
}

/** The figure a finding rests on, and the limit it was held against on either side. */
export interface Size {
  value: number
  low: number
  high: number
  unit: string
  limitLow: number | undefined
  limitHigh: number | undefined
}

/** One thing found, in one state of the engine, from captures or from the log. */
export interface JobFinding {
  kind: FindingKind
  state: FindingState
  order: FindingOrder
  where: Where
  direction: Direction
  /** `idle`, `2500 rpm`, `cranking`; undefined where it bears on nothing. */
  condition: string | undefined
  /** How the engine ran and what decided, of cylinders judged off a warm idle. */
  offIdle?: { running: Running; basis: Basis } | undefined
  /** What was read, where one kind has several readings: a code, `key-on`, `manifold`. */
  reading: string | undefined
  size: Size | undefined
  sure: Certainty
  /** Why it was not judged. */
  why: Says | undefined
  /** Cylinders that bear the pattern's figure only to the limit: they do not break it. */
  unsure: readonly number[]
  /** Tests it rests on (indices into the list of tests), and captures (by file). */
  tests: readonly number[]
  captures: readonly string[]
}

/** A finding under its name, with the fault that explains it. */
export interface NamedFinding extends JobFinding {
  /** F1, F2 ... in the order of the list. */
  id: string
  explainedBy: string | undefined
}

/** Whether cylinders' own burns show it, whatever its kind: a line that a gauge turned into low compression is one too. */
export const isOfBurns = ({ captures, where }: JobFinding): boolean =>
  captures.length > 0 && where.cylinders.length > 0

/** A reading that measures the fault itself: no work elsewhere puts it right, and only the same reading shows it mended. */
export const isMeasure = ({ kind, captures, reading }: JobFinding): boolean =>
  (kind === 'compression' && captures.length === 0) ||
  kind === 'fuel-pressure' ||
  (kind === 'part' && reading === 'leak-down')

export const onEngine: Where = { scope: 'engine', bank: undefined, cylinders: [], place: undefined }

/** Cylinders as the place of a finding: all of them, those of one bank, or each by name. */
export function whereOf(
  cylinders: readonly number[],
  { all, banks }: { all: readonly number[]; banks: Readonly<Record<string, readonly number[]>> | undefined },
): Where {
  const named = [...cylinders].sort((a, b) => a - b)
  const same = (others: readonly number[]) =>
    others.length === named.length && others.every((c) => named.includes(c))
  if (all.length > 1 && same(all)) return { ...onEngine, cylinders: named }
  const bank = Object.entries(banks ?? {}).find(([, members]) => members.length > 1 && same(members))?.[0]
  return { scope: bank === undefined ? 'cylinders' : 'bank', bank, cylinders: named, place: undefined }
}

/** What makes two findings of two states the same matter: its kind, reading and condition, and where it lies. */
export const matterOf = ({ kind, where, condition, reading }: JobFinding): string =>
  JSON.stringify([kind, where.scope === 'cylinders' ? null : where.bank, where.place, condition, reading])
