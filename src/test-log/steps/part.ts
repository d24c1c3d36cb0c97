import type { EvidenceKind } from '../../limits/keys.ts'
import { ownWords, sentence } from '../../texts/messages.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'
import type { LogEntry } from '../entry.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { outcomesOf, readOutcome, type OutcomeKind } from '../outcome-words.ts'
import { cylinderOf } from '../step-kind.ts'
import { recorded, type StepContext, type TestGroup } from '../test-group.ts'

/** One row of a test of parts, read: the part's state and the cylinder it belongs to. */
interface PartRow<S extends string> {
  state: S
  cylinder: number | undefined
  /** It rests on a figure against the maker's limits. */
  measured: boolean
}

/** A sentence about parts: of which cylinders, at which place. */
type PartKey = KeyNeeding<{ cylinders: Arg; place: Arg }>

/** How a step that looks at parts reads its rows into states, and what each state says and weighs. */
export interface PartReader<S extends string> {
  outcomes: OutcomeKind<S>
  /** State by a row's figure; undefined where a figure alone says nothing. `rows` are all rows of the test. */
  byFigure?: (row: LogEntry, rows: TestGroup, context: StepContext) => S | undefined
  /** Cylinder of a row; the one its reading names where left out. */
  cylinder?: (row: LogEntry) => number | undefined
  states: Readonly<
    Record<S, { says: PartKey; evidence: EvidenceKind | undefined; finding: 'in limits' | 'out of limits' }>
  >
  /** Said where no state could be read. */
  recorded: WordKey
}

/**
 * Reads a test of parts: each row's figure against the maker's limits or the other cylinders, else its outcome. Rows in
 * one state are one fact, for the cylinders they name.
 */
export function readParts<S extends string>(
  group: TestGroup,
  context: StepContext,
  reader: PartReader<S>,
): TestFinding {
  const base = recorded(group)
  const cylinderIn = reader.cylinder ?? ((row: LogEntry) => cylinderOf(row.reading))
  const rows = group.flatMap((row): PartRow<S>[] => {
    const figure = reader.byFigure?.(row, group, context)
    const state = figure ?? readOutcome(row.outcome, reader.outcomes)
    return state === undefined ? [] : [{ state, cylinder: cylinderIn(row), measured: figure !== undefined }]
  })
  if (rows.length === 0) return { ...base, says: [sentence(reader.recorded)] }
  const states = [...new Set(rows.map((r) => r.state))]
  const of = (state: S) => rows.filter((r) => r.state === state)
  const says = states.map((state) => sentence(reader.states[state].says, argsOf(of(state), base)))
  const facts = states.flatMap((state): Fact[] => {
    const { evidence } = reader.states[state]
    if (evidence === undefined) return []
    const cylinders = cylindersOf(of(state))
    return [
      {
        kind: 'part',
        evidence,
        cylinders,
        place: base.place,
        stage: base.stage,
        sure: of(state).every((r) => r.measured),
        fine: reader.states[state].finding === 'in limits',
      },
    ]
  })
  return {
    ...base,
    facts,
    says,
    observed: rows.every((r) => !r.measured),
    finding: states.some((s) => reader.states[s].finding === 'out of limits') ? 'out of limits' : 'in limits',
  }
}

const cylindersOf = (rows: readonly { cylinder: number | undefined }[]): number[] =>
  [...new Set(rows.flatMap((r) => r.cylinder ?? []))].sort((a, b) => a - b)

function argsOf(rows: readonly PartRow<string>[], base: TestFinding): { cylinders: Arg; place: Arg } {
  return { cylinders: cylindersOf(rows).join(', ') || '\u2013', place: ownWords(base.place ?? '\u2013') }
}

/** What a step of parts declares about its outcomes. */
export const partOutcomes = <S extends string>(reader: PartReader<S>, words: readonly string[]) =>
  outcomesOf(reader.outcomes, words)
