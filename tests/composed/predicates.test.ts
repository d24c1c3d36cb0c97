import { beforeAll, describe, expect, test } from 'vitest'
import { composeJob } from '../support/composed/compose.ts'
import { confirmed } from '../support/composed/predicates/confirmed.ts'
import { goodEngine } from '../support/composed/predicates/good-engine.ts'
import { nextStep } from '../support/composed/predicates/next-step.ts'
import { noDenial } from '../support/composed/predicates/no-denial.ts'
import { noReassurance } from '../support/composed/predicates/no-reassurance.ts'
import { openFaultsNamed } from '../support/composed/predicates/open-faults-named.ts'
import { orderless } from '../support/composed/predicates/order.ts'
import { patternHolds } from '../support/composed/predicates/pattern-holds.ts'
import type { Predicate, Seen } from '../support/composed/predicates/predicate.ts'
import { ruledOut } from '../support/composed/predicates/ruled-out.ts'
import { trueToLife } from '../support/composed/predicates/true-to-life.ts'
import { recordFolder } from '../support/composed/run.ts'

// Each predicate is shown to catch a breach planted in a report: a predicate that cannot fail holds nothing.

type Conclusion = NonNullable<Seen['result']['conclusion']>
const jobs: Record<'mended' | 'open' | 'good', Seen> = {} as never

/** Composed jobs of each kind: a servo hose mended, an open lead left, nothing wrong. */
const SEEDS = { mended: 7, open: 16, good: 10 } as const

beforeAll(async () => {
  for (const [name, seed] of Object.entries(SEEDS)) {
    const { files, truth } = composeJob(seed)
    const { result, records } = await recordFolder(files)
    jobs[name as keyof typeof SEEDS] = {
      result,
      cylindersCsv: records.get('cylinders.csv')!,
      testsCsv: records.get('tests.csv')!,
      page: undefined,
      truth,
    }
  }
})

/** A copy of a job's report with something changed in it. */
function planted(name: keyof typeof SEEDS, change: (seen: Seen, conclusion: Conclusion) => void): Seen {
  const copy = structuredClone({ ...jobs[name], truth: undefined }) as Seen
  const seen = { ...copy, truth: structuredClone(jobs[name].truth) }
  change(seen, seen.result.conclusion!)
  return seen
}

test('the jobs are what they are said to be', () => {
  expect(jobs.mended.truth).toMatchObject({
    work: 'right',
    now: [],
    captured: { before: true, after: 'good' },
  })
  expect(jobs.open.truth).toMatchObject({ work: 'none', found: [{ kind: 'open lead' }] })
  expect(jobs.good.truth).toMatchObject({ found: [], captured: { before: true } })
})

const cases: readonly [Predicate, string, keyof typeof SEEDS, (seen: Seen, c: Conclusion) => void, RegExp][] =
  [
    [
      noReassurance,
      'in order over odd cylinders',
      'mended',
      (_, c) => (c.as_found.class = 'in order'),
      /as found in order, but cylinder 1 is lean/,
    ],
    [
      noReassurance,
      'in order over a fault that is there',
      'open',
      (_, c) => (c.now.class = 'in order'),
      /over a open lead that capture shows/,
    ],
    [
      noReassurance,
      'in order with a cylinder at the limit',
      'good',
      ({ result }) => (result.cylinders[0]!.verdict = 'borderline'),
      /cylinder 1 is borderline/,
    ],
    [
      noReassurance,
      'in order with a cylinder not judged',
      'good',
      ({ result }) => (result.cylinders[0]!.verdict = 'not judged'),
      /cylinder 1 is not judged/,
    ],
    [
      noReassurance,
      'in order with a cylinder never captured',
      'good',
      ({ result }) => void result.cylinders.shift(),
      /cylinder 1 was not captured/,
    ],
    [
      noReassurance,
      'in order with a cylinder apart from its fellows',
      'good',
      ({ result }) =>
        (result.cylinders[1]!.apart = [{ figure: 'firing voltage', direction: 'high' } as never]),
      /cylinder 2 stands apart/,
    ],
    [
      noReassurance,
      'in order with a reading out of limits',
      'good',
      ({ result }) => (result.tests[0]!.finding = 'out of limits'),
      /is out of limits/,
    ],
    [
      noReassurance,
      'in order with a code nothing explains',
      'good',
      (_, c) =>
        void c.findings.push({ ...c.findings[0]!, kind: 'code', reading: 'P0301', explained_by: null }),
      /nothing explains P0301/,
    ],
    [
      noReassurance,
      'known though nothing was recorded',
      'open',
      ({ result }, c) => {
        result.tests.push({ ...result.tests[0]!, step: 'repair', stage: 'before' })
        c.now.class = 'suspected'
      },
      /nothing was recorded after the work/,
    ],
    [
      noReassurance,
      'in order with a reading out before the work, not read again and not said to be missing',
      'mended',
      (_, c) =>
        void c.findings.push({
          ...c.findings[0]!,
          id: 'F99',
          state: 'as found',
          kind: 'vacuum',
          reading: 'manifold',
          order: 'out of order',
        }),
      /now in order, but vacuum manifold was out and was not read again, unsaid/,
    ],
    [noReassurance, 'two states without work', 'good', (_, c) => (c.now.class = 'suspected'), /no work, yet/],
    [
      confirmed,
      'confirmed by nothing',
      'mended',
      (_, c) => (c.repair.supports = []),
      /nothing that supports/,
    ],
    [
      confirmed,
      'confirmed against a finding',
      'mended',
      (_, c) => (c.repair.opposes = ['F9']),
      /confirmed against F9/,
    ],
    [confirmed, 'two verdicts', 'mended', ({ result }) => (result.repair.verdict = 'worse'), /elsewhere/],
    [
      confirmed,
      'confirmed with an odd cylinder',
      'mended',
      ({ result }) => (result.cylinders.findLast(({ stage }) => stage === 'after')!.verdict = 'lean'),
      /confirmed with cylinder 3 lean/,
    ],
    [
      confirmed,
      'confirmed with a place that still answers',
      'mended',
      ({ result }) =>
        void result.tests.push({ ...result.tests[0]!, step: 'spray', stage: 'after', finding: 'response' }),
      /confirmed with spray/,
    ],
    [
      confirmed,
      'confirmed over a fault that is still there',
      'mended',
      (seen) => {
        const [fault] = seen.truth!.found
        ;(seen as { truth: unknown }).truth = {
          ...seen.truth,
          now: [fault],
          shown: [{ stage: 'after', fault, by: 'trim' }],
        }
      },
      /confirmed over a brake servo hose that trim shows/,
    ],
    [
      openFaultsNamed,
      'a headline without the fault',
      'open',
      (_, c) => (c.headline.text = 'level; not checked'),
      /headline does not name the open lead of 2/,
    ],
    [
      openFaultsNamed,
      'a headline without its cylinder',
      'open',
      (_, c) => (c.headline.text = 'open secondary on one cylinder'),
      /headline does not name/,
    ],
    [
      openFaultsNamed,
      'page one without the fault',
      'open',
      (seen) => (seen.page = 'All is well.'),
      /page one does not name the open lead/,
    ],
    [
      patternHolds,
      'one at the limit breaks the pattern',
      'mended',
      ({ result }) => {
        result.cylinders.find(({ stage }) => stage === 'before')!.verdict = 'borderline'
        result.engine.before!.pattern = 'mixed'
      },
      /2 of 3 lean, 1 open: pattern mixed/,
    ],
    [
      nextStep,
      'outcomes that all say the same',
      'open',
      ({ result }) =>
        (result.next_test!.outcomes = ['a', 'b'].map((id) => ({
          id,
          probability: 0.5,
          says: { key: 'x', args: { cause: 'leak-manifold' }, text: '' },
        }))),
      /whatever comes out/,
    ],
    [
      nextStep,
      'nothing next over an open fault',
      'open',
      ({ result }, c) => {
        c.next = { kind: 'none', id: null, place: null, minutes: null }
        result.next_test = null
      },
      /nothing next over an open open lead/,
    ],
    [
      nextStep,
      'two next steps',
      'open',
      ({ result }) => (result.next_test = null),
      /next is .* in the conclusion/,
    ],
    [
      nextStep,
      'another next step in the drawing of the leak hunt',
      'mended',
      ({ result }) =>
        (result.leak_hunt = {
          places: [],
          untried: [],
          left_capped: [],
          next: {
            way: 'spray',
            place: null,
            seat: null,
            share: null,
            says: { key: 'leak-hunt.next', args: { step: 'elsewhere' }, text: 'Next: elsewhere' },
          },
        }),
      /the leak hunt goes on with "Next: elsewhere"/,
    ],
    [
      nextStep,
      'the work just done',
      'mended',
      ({ result }, c) => {
        const place = result.tests.find(({ step }) => step === 'repair')!.place
        c.next = { kind: 'work', id: 'repair-and-capture', place, minutes: 10 }
      },
      /next is the work just done/,
    ],
    [
      ruledOut,
      'the true cause',
      'mended',
      ({ result }) =>
        void result.ledger.ruled_out.push({
          id: 'leak-brake-booster',
          name: { key: 'x', args: {}, text: 'Air leak at the brake servo' },
          probability: 0,
          by: [{ says: { key: 'evidence.spray-silent', args: {}, text: '' }, factor: 0.1 }],
        }),
      /Air leak at the brake servo is ruled out, and is so/,
    ],
    [
      ruledOut,
      'by what an assumed fault makes unlikely',
      'mended',
      ({ result }) =>
        void result.ledger.ruled_out.push({
          id: 'never-listed',
          name: { key: 'x', args: {}, text: 'Worn plug' },
          probability: 0,
          by: [{ says: { key: 'evidence.burn-all-lean', args: {}, text: '' }, factor: 0.1 }],
        }),
      /never-listed by evidence.burn-all-lean/,
    ],
    [
      noDenial,
      'calm words over a fault',
      'open',
      (_, c) => (c.headline.text = 'every cylinder burns as it should'),
      /says "every cylinder/,
    ],
    [
      noDenial,
      'mended, where it is not',
      'open',
      (_, c) => (c.headline.text = 'open secondary on cylinder 2; it worked'),
      /says "it worked"/,
    ],
    [
      noDenial,
      'nothing judged after, where it was',
      'mended',
      ({ result }) => (result.repair.says.text = 'There is no capture taken after it that can be judged.'),
      /no capture after/,
    ],
    [
      noDenial,
      'records that differ',
      'open',
      (seen) => (seen.cylindersCsv = seen.cylindersCsv.replace('open secondary', 'level')),
      /differ/,
    ],
    [
      goodEngine,
      'a cause named',
      'good',
      (_, c) => void c.faults.push({ ...c.faults[0]!, cause: 'leak-manifold', standing: 'leading' } as never),
      /leak-manifold is leading/,
    ],
    [
      goodEngine,
      'work to do',
      'good',
      (_, c) => (c.next = { kind: 'test', id: 'compression', place: null, minutes: 25 }),
      /next is compression/,
    ],
    [
      goodEngine,
      'called suspect',
      'good',
      (_, c) => (c.as_found.class = 'suspected'),
      /a good engine is suspected/,
    ],
    [
      trueToLife,
      'another cause called clear',
      'open',
      (_, c) =>
        void c.faults.push({ ...c.faults[0]!, cause: 'fuel-delivery-low', standing: 'clear' } as never),
      /fuel-delivery-low .* is clear/,
    ],
    [
      trueToLife,
      'a verdict on a sound cylinder',
      'open',
      ({ result }) => (result.cylinders[0]!.verdict = 'lean'),
      /cylinder 1 before is lean; made level/,
    ],
    [
      trueToLife,
      'a plain fault called level',
      'mended',
      ({ result }) => (result.cylinders[0]!.verdict = 'level'),
      /is level; made lean/,
    ],
  ]

describe.each(cases)('$id', (...row) => {
  const [predicate, what, job, plant, expected] = row
  test(`${what} is caught`, () => {
    const before = predicate.breaches(planted(job, () => undefined)).join('\n')
    expect(before).not.toMatch(expected)
    expect(predicate.breaches(planted(job, plant)).join('\n')).toMatch(expected)
  })
})

describe('9 order changes nothing', () => {
  const changed = (change: (c: Conclusion) => void) =>
    orderless(planted('mended', (_, c) => change(c)).result)
  test('numbers of findings do not count', () =>
    expect(changed((c) => void c.findings.forEach((f, i) => (f.id = `X${i}`)))).toEqual(
      changed(() => undefined),
    ))
  test.each<[string, (c: Conclusion) => void]>([
    ['a class', (c) => (c.now.class = 'suspected')],
    ['a finding', (c) => (c.findings[0]!.order = 'unsure')],
    ['a standing', (c) => (c.faults[0]!.standing = 'open')],
    ['the headline', (c) => (c.headline.text = 'something else')],
    ['the next step', (c) => (c.next.id = 'smoke')],
  ])('%s does', (_, change) => expect(changed(change)).not.toEqual(changed(() => undefined)))
})
