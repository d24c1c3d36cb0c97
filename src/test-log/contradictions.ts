import { sentence, ownWords } from '../texts/messages.ts'
import type { Addition } from './addition.ts'
import type { Fact } from './fact.ts'
import type { TestFinding } from './findings.ts'

interface Statement {
  index: number
  stage: Fact['stage']
  step: 'cap' | 'smoke' | 'compression'
  place: string
  says: boolean
}

/**
 * Caps, smoke and compression readings of the same thing in the same stage that say yes once and no once. Each keeps its
 * own finding; the last of them says that they cannot both be right. (Sprays: see isolation.ts.)
 */
export function contradictions(tests: readonly TestFinding[]): Addition[] {
  return [...againstItself(tests), ...smokeAgainstOthers(tests)]
}

/**
 * A place where smoke finds no leak and another method does. Both can be right (a joint that opens warm, a spray drawn
 * in beside it), so both count, and the last of them says it.
 */
function smokeAgainstOthers(tests: readonly TestFinding[]): Addition[] {
  const all = tests.flatMap((test, index) => (test.facts ?? []).map((fact) => ({ fact, index })))
  const tight = all.filter(({ fact }) => fact.kind === 'smoke' && !fact.leak)
  const drawing = all.filter(
    ({ fact }) =>
      (fact.kind === 'spray-response' && fact.capped.length === 0) || (fact.kind === 'cap' && fact.changed),
  )
  const places = new Map(
    tight.flatMap((t) =>
      drawing
        .filter((d) => placeOf(d.fact) === placeOf(t.fact) && d.fact.stage === t.fact.stage)
        .map(
          (d) =>
            [
              JSON.stringify([t.fact.stage, placeOf(t.fact)]),
              { fact: t.fact, index: Math.max(t.index, d.index) },
            ] as const,
        ),
    ),
  )
  return [...places.values()].map(({ fact, index }) => {
    const place = placeOf(fact)!
    return {
      index,
      says: [sentence('tests.contradiction.methods', { place: ownWords(place) })],
      facts: [{ kind: 'contradiction', step: 'methods', place, stage: fact.stage, sure: true }],
    }
  })
}

const placeOf = (fact: Fact): string | undefined => ('place' in fact ? fact.place : undefined)

const SAYS = {
  cap: 'tests.contradiction.cap',
  smoke: 'tests.contradiction.smoke',
  compression: 'tests.contradiction.compression',
} as const

function againstItself(tests: readonly TestFinding[]): Addition[] {
  const groups = new Map<string, Statement[]>()
  for (const statement of tests.flatMap((test, index) =>
    (test.facts ?? []).flatMap((f) => statementOf(f, index)),
  )) {
    const key = JSON.stringify([statement.stage, statement.step, statement.place])
    const group = groups.get(key)
    if (group) group.push(statement)
    else groups.set(key, [statement])
  }
  return [...groups.values()].flatMap((group) => {
    const last = group.at(-1)!
    if (new Set(group.map((s) => s.says)).size < 2) return []
    const { stage, step, place } = last
    const fact: Fact = { kind: 'contradiction', step, place, stage, sure: true }
    return [{ index: last.index, says: [sentence(SAYS[step], { place: ownWords(place) })], facts: [fact] }]
  })
}

function statementOf(fact: Fact, index: number): Statement[] {
  const { stage } = fact
  if (fact.kind === 'cap') return [{ index, stage, step: 'cap', place: fact.place, says: fact.changed }]
  if (fact.kind === 'smoke') return [{ index, stage, step: 'smoke', place: fact.place, says: fact.leak }]
  if (fact.kind === 'compression')
    return [{ index, stage, step: 'compression', place: String(fact.cylinder), says: fact.state === 'low' }]
  return []
}
