import type { Result } from '../../../../src/records/result.ts'
import { conclusionOf, shownIn, type Predicate } from './predicate.ts'

/** The next step follows from the car as it stands: never the work just done, never one that changes nothing, never none where a fault is open. */
export const nextStep: Predicate = {
  id: '5 next step',
  breaches(seen) {
    const { result, truth } = seen
    const { next, now, repair } = conclusionOf(seen)
    const test = result.next_test
    const leads = new Set((test?.outcomes ?? []).map((o) => JSON.stringify(o.says.args['cause'] ?? null)))
    const done = result.tests.filter((t) => t.step === 'repair').map((t) => t.place)
    const stage = truth?.work === 'none' ? 'before' : 'after'
    const open = shownIn(seen, stage)
    return [
      ...((next.id ?? null) === (test?.id ?? null)
        ? []
        : [`next is ${next.id} in the conclusion and ${test?.id} elsewhere`]),
      ...hunted(result),
      ...(test && test.outcomes.length > 0 && leads.size === 1 && !leads.has('null')
        ? [`${test.id}: whatever comes out, the same cause stays first`]
        : []),
      ...(next.kind === 'work' &&
      next.place !== null &&
      done.includes(next.place) &&
      repair.verdict !== 'no change' &&
      repair.verdict !== 'worse'
        ? [`next is the work just done at ${next.place}`]
        : []),
      ...(next.kind === 'none' && (now.class === 'fault' || now.class === 'suspected')
        ? [`nothing next, and the engine is ${now.class}`]
        : []),
      ...(next.kind === 'none' && open.length > 0
        ? [`nothing next over an open ${open[0]!.fault.kind} that ${open[0]!.by} shows`]
        : []),
    ]
  },
}

/** The drawing of the leak hunt names the step that the report names, in the same words. */
function hunted({ leak_hunt: hunt, next_test: next }: Result): string[] {
  if (!hunt?.next) return []
  const step = JSON.stringify(hunt.next.says.args['step'])
  return step === JSON.stringify(next?.says.args['test'])
    ? []
    : [`the leak hunt goes on with "${hunt.next.says.text}", the report with "${next?.says.text}"`]
}
