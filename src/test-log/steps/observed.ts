import type { Fact } from '../fact.ts'
import type { Finding, Says, TestFinding } from '../findings.ts'
import { outcomeWord, recorded, type TestGroup } from '../test-group.ts'

/**
 * Tests whose outcome the technician saw or heard: sprays without a trace, caps, smoke; and repairs, photos and notes.
 * Shown as observed; a free outcome is recorded as written and not read into anything.
 */
export function readObserved(group: TestGroup): TestFinding {
  const base = recorded(group)
  switch (base.step) {
    case 'spray':
      return observedSpray(base)
    case 'cap':
      return observedCap(base)
    case 'smoke':
      return observedSmoke(base)
    case 'repair':
      return readRepair(base)
    default:
      return {
        ...base,
        says: base.step === 'uncap' ? [{ key: 'tests.uncap', args: { place: base.place ?? '' } }] : [],
      }
  }
}

function observedSpray(base: TestFinding): TestFinding {
  const word = outcomeWord(base.outcome)
  const finding: Finding =
    word === 'response' || word === 'leak'
      ? 'response'
      : word === 'no response' || word === 'no leak'
        ? 'no response'
        : 'recorded'
  return { ...base, finding, observed: true, says: [said(`tests.spray.observed-${slug(finding)}`, base)] }
}

function observedCap(base: TestFinding): TestFinding {
  const word = outcomeWord(base.outcome)
  const changed =
    word === 'response' || word === 'fixed'
      ? true
      : word === 'no response' || word === 'not fixed'
        ? false
        : undefined
  if (changed === undefined)
    return { ...base, observed: base.outcome !== undefined, says: [said('tests.cap.recorded', base)] }
  const fact: Fact = { kind: 'cap', place: base.place ?? '', changed, stage: base.stage, sure: false }
  return {
    ...base,
    finding: changed ? 'response' : 'no response',
    observed: true,
    facts: [fact],
    says: [said(changed ? 'tests.cap.changed' : 'tests.cap.unchanged', base)],
  }
}

function observedSmoke(base: TestFinding): TestFinding {
  const word = outcomeWord(base.outcome)
  const leak =
    word === 'leak' || word === 'response'
      ? true
      : word === 'no leak' || word === 'no response'
        ? false
        : undefined
  if (leak === undefined)
    return { ...base, observed: base.outcome !== undefined, says: [said('tests.smoke.recorded', base)] }
  const fact: Fact = { kind: 'smoke', place: base.place ?? '', leak, stage: base.stage, sure: false }
  return {
    ...base,
    finding: leak ? 'response' : 'no response',
    observed: true,
    facts: [fact],
    says: [said(leak ? 'tests.smoke.leak' : 'tests.smoke.tight', base)],
  }
}

function readRepair(base: TestFinding): TestFinding {
  const word = outcomeWord(base.outcome)
  const outcome = word === 'fixed' || word === 'not fixed' ? word : undefined
  const fact: Fact = { kind: 'repair', place: base.place ?? '', outcome, stage: base.stage, sure: false }
  return {
    ...base,
    observed: outcome !== undefined,
    facts: [fact],
    says: [said(`tests.repair.${outcome ? slug(outcome) : 'done'}`, base)],
  }
}

const slug = (words: string): string => words.replaceAll(' ', '-')
const said = (key: string, { place }: TestFinding): Says => ({ key, args: { place: place ?? '' } })
