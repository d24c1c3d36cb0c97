import type { Fact } from './fact.ts'
import type { Says, TestFinding } from './findings.ts'
import type { Interval } from '../units/measured.ts'

/** What looking at several tests together adds to one of them. */
export interface Addition {
  /** Index of the test it stands with. */
  index: number
  says?: readonly Says[]
  facts?: readonly Fact[]
  computed?: Readonly<Record<string, Interval>>
  effect?: Interval
}

/** The tests with the additions put in; the given list is not changed. */
export function withAdditions(tests: readonly TestFinding[], additions: readonly Addition[]): TestFinding[] {
  return tests.map((test, index) => additions.filter((a) => a.index === index).reduce(add, test))
}

function add(test: TestFinding, addition: Addition): TestFinding {
  const facts = [...(test.facts ?? []), ...(addition.facts ?? [])]
  return {
    ...test,
    says: [...test.says, ...(addition.says ?? [])],
    computed: { ...test.computed, ...addition.computed },
    ...(facts.length ? { facts } : {}),
    ...(addition.effect ? { effect: addition.effect } : {}),
  }
}
