import type { Fact, FactKind } from './fact.ts'
import type { TestFinding } from './findings.ts'

/** A fact with the tests it rests on (indices into the list of tests). */
export type SourcedFact<K extends FactKind = FactKind> = Extract<Fact, { kind: K }> & {
  tests: readonly number[]
}

/**
 * Every fact of the log, in the order of the tests. Facts in equal words are one fact resting on several tests, so that
 * a test repeated with the same result is not counted as new evidence; contradictions stand beside what they concern.
 */
export function gatherFacts(tests: readonly TestFinding[]): SourcedFact[] {
  const found = new Map<string, { fact: Fact; sure: boolean; tests: number[] }>()
  tests.forEach((test, index) => {
    for (const fact of test.facts ?? []) {
      const key = JSON.stringify(identity(fact))
      const known = found.get(key)
      if (known) {
        known.sure ||= fact.sure
        if (known.tests.at(-1) !== index) known.tests.push(index)
      } else found.set(key, { fact, sure: fact.sure, tests: [index] })
    }
  })
  return [...found.values()].map(({ fact, sure, tests: of }) => ({ ...fact, sure, tests: of }) as SourcedFact)
}

/** What makes two facts the same: all but their sizes and certainty. */
function identity(fact: Fact): unknown {
  const bare = { ...fact, sure: undefined }
  if (bare.kind === 'spray-response') return { ...bare, changeRpm: undefined }
  if (bare.kind === 'unmetered-air') return { ...bare, airGps: undefined, holeMm: undefined }
  return bare
}

/** The facts of one kind. */
export const factsOf = <K extends FactKind>(facts: readonly SourcedFact[], kind: K): SourcedFact<K>[] =>
  facts.filter((f): f is SourcedFact<K> => f.kind === kind)

/** What compression readings say of the cylinders in each state. */
export type CompressionRead = ReadonlyMap<'before' | 'after', ReadonlyMap<number, 'low' | 'in order'>>

/**
 * What compression readings say of each cylinder in each state: those of the state itself; where it has none, for the
 * state after the work those of before, and for the state before it only the low ones of after: work does not make
 * a cylinder low, but may have put one right. Without work there is one state. A cylinder whose readings disagree is left out.
 */
export function compressionRead(tests: readonly TestFinding[]): CompressionRead {
  const facts = factsOf(gatherFacts(tests), 'compression')
  const of = (stage: 'before' | 'after') => agreed(facts.filter((f) => f.stage === stage))
  const [before, after] = [of('before'), of('after')]
  const isWorked = tests.some(({ step }) => step === 'repair')
  const left = [...after].filter(([, state]) => state === 'low' || !isWorked)
  return new Map([
    ['before', new Map([...left, ...before])],
    ['after', new Map([...before, ...after])],
  ])
}

/** By cylinder, those whose readings say one thing. */
function agreed(facts: readonly SourcedFact<'compression'>[]): Map<number, 'low' | 'in order'> {
  const cylinders = [...new Set(facts.map((f) => f.cylinder))]
  return new Map(
    cylinders.flatMap((cylinder) => {
      const states = new Set(
        facts
          .filter((f) => f.cylinder === cylinder)
          .map((f) => (f.state === 'low' ? ('low' as const) : ('in order' as const))),
      )
      return states.size === 1 ? [[cylinder, [...states][0]!] as const] : []
    }),
  )
}
