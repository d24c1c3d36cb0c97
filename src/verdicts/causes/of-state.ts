import type { Fact } from '../../test-log/fact.ts'
import type { SourcedFact } from '../../test-log/facts.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import type { Step } from '../../job/log-steps.ts'
import type { RepairVerdict } from '../verdict-names.ts'
import type { CapturePicture } from './from-captures.ts'
import { FAMILY } from '../kinds/index.ts'
import type { LedgerContext } from './ledger.ts'
import { NO_CAUSES, readPlace } from './place-words.ts'

/** Which facts speak of the fault the car came in with, and which of the car as it stands now. */
export interface FactsOfStates {
  asFound: readonly SourcedFact[]
  /** Undefined where nothing speaks of a fault that is still, or newly, there. */
  now: readonly SourcedFact[] | undefined
}

interface Job {
  facts: readonly SourcedFact[]
  tests: readonly TestFinding[]
  verdict: RepairVerdict
  after: CapturePicture
  context: LedgerContext
}

/**
 * Parts the facts of the log between the states.
 *
 * - Without work on record there is one state, and every fact speaks of it.
 * - After work that changed nothing the engine is as it was: what was found then speaks of the same fault.
 * - After work that was not shown to have mended it, what is still wrong speaks of the fault; what is in order again may
 *   be so because of the work, and does not.
 * - What was read after work that mended it, or that made it worse, speaks of the car now and not of how it came in.
 *
 * The car now is weighed by itself where something read after the work is out of order: from what was read then, and
 * from tests before it of parts that the work left alone. Patterns of before (mixture, trims, gas, vacuum, codes) are of
 * an engine that is no longer the same.
 */
export function factsOfStates(job: Job): FactsOfStates {
  const { facts, tests, verdict, after } = job
  const before = facts.filter((f) => f.stage === 'before')
  const later = facts.filter((f) => f.stage === 'after')
  if (!tests.some((t) => t.step === 'repair')) return { asFound: facts, now: undefined }
  const adverse = later.filter(isAdverse)
  const asFound =
    verdict === 'no change'
      ? [...before, ...later.filter((f) => isAdverse(f) || !isRepaired(f, job))]
      : verdict === 'improved, not in order' || verdict === 'not checked'
        ? [...before, ...adverse]
        : before
  const wrongNow = adverse.length > 0 || after.cylinders.some((c) => FAMILY[c.verdict] !== undefined)
  if (!wrongNow || verdict === 'no change' || verdict === 'repair confirmed')
    return { asFound, now: undefined }
  const left = before.filter((f) => OF_A_PART.has(f.kind) && !isRepaired(f, job) && !readAgain(f, later))
  return { asFound, now: [...left.map(asNow), ...later] }
}

/** Facts of before and after are of one state here, so that the same one is not counted twice. */
const asNow = (fact: SourcedFact): SourcedFact => ({ ...fact, stage: 'after' })

/** Facts about one part or place, which work elsewhere leaves as they were. */
const OF_A_PART: ReadonlySet<Fact['kind']> = new Set([
  'spray-response',
  'spray-silent',
  'isolation',
  'cap',
  'smoke',
  'part',
  'compression',
  'fuel-pressure',
])

const readAgain = (fact: SourcedFact, later: readonly SourcedFact[]): boolean =>
  later.some(
    (l) =>
      l.kind === fact.kind &&
      ('place' in l && 'place' in fact ? l.place === fact.place : true) &&
      (l.kind === 'compression' && fact.kind === 'compression' ? l.cylinder === fact.cylinder : true) &&
      (l.kind === 'part' && fact.kind === 'part' ? l.evidence === fact.evidence : true),
  )

/** Whether the place, or the cylinders, of a fact were worked on. */
function isRepaired(fact: SourcedFact, { tests, context: { table, engine } }: Job): boolean {
  const places = tests.flatMap((t) => (t.step === 'repair' && t.place !== undefined ? [t.place] : []))
  const place = 'place' in fact ? fact.place : undefined
  if (place !== undefined && places.includes(place)) return true
  const cylinders = fact.kind === 'compression' ? [fact.cylinder] : fact.kind === 'part' ? fact.cylinders : []
  return places.some((p) => {
    const named = readPlace(p, { table, engine, among: NO_CAUSES }).cylinders
    return cylinders.some((c) => named.includes(c))
  })
}

/** Whether a fact says that something is wrong. */
function isAdverse(fact: Fact): boolean {
  switch (fact.kind) {
    case 'spray-response':
    case 'isolation':
    case 'unmetered-air':
    case 'gas-doubt':
      return true
    case 'cap':
      return fact.changed
    case 'smoke':
      return fact.leak
    case 'trim-pattern':
      return fact.pattern !== 'in order'
    case 'lambda':
      return fact.side !== 'in order'
    case 'lambda-trims':
      return fact.together !== 'gas lean, trims in order'
    case 'fuel-pressure':
    case 'vacuum':
    case 'compression':
      return fact.state !== 'in order'
    case 'code':
      return fact.about !== 'other' && fact.about !== 'maker'
    case 'part':
      return !fact.fine
    case 'spray-silent':
    case 'untested':
    case 'codes-none':
    case 'repair':
    case 'contradiction':
      return false
  }
}

/** Steps whose result work on the engine makes stale. */
const STALE: ReadonlySet<Step> = new Set(['trim', 'gas', 'vacuum', 'code', 'airflow', 'power-drop'])

/** Tests that count as done for the car now: those after the work, and those before it that the work leaves standing. */
export const standingTests = (tests: readonly TestFinding[], isWorked: boolean): readonly TestFinding[] =>
  isWorked ? tests.filter((t) => t.stage === 'after' || t.step === 'repair' || !STALE.has(t.step)) : tests
