import { conclusionOf, ODD, shownIn, verdictsIn, type Predicate } from './predicate.ts'

/** `repair confirmed` needs a figure that carried the fault and is back, and nothing that opposes it. */
export const confirmed: Predicate = {
  id: '2 repair confirmed',
  breaches(seen) {
    const { result, truth } = seen
    const { repair, findings } = conclusionOf(seen)
    if (repair.verdict !== result.repair.verdict)
      return [`repair is ${repair.verdict} in the conclusion and ${result.repair.verdict} elsewhere`]
    if (repair.verdict !== 'repair confirmed') return []
    const orderOf = (id: string) => findings.find((f) => f.id === id)?.order
    const stillThere = shownIn(seen, 'after')
    // a capture taken before the last work tells of the engine as found, whatever its name says
    const lastWork = Math.max(...result.tests.filter((t) => t.step === 'repair').map((t) => Date.parse(t.at)))
    const early = new Set(result.captures.filter((c) => Date.parse(c.taken) < lastWork).map((c) => c.file))
    const cylinders = result.cylinders.filter((c) => !early.has(c.capture))
    const after = verdictsIn({ ...result, cylinders }, 'after')
    return [
      ...(repair.supports.length === 0 ? ['confirmed with nothing that supports it'] : []),
      ...repair.opposes.map((id) => `confirmed against ${id}`),
      ...repair.supports
        .filter((id) => orderOf(id) === 'out of order' && id !== undefined)
        .filter((id) => findings.some((f) => f.id === id && f.state === 'after'))
        .map((id) => `confirmed by ${id}, which is out of order`),
      ...[...after]
        .filter(([, v]) => ODD.has(v))
        .map(([c, v]) => `confirmed with cylinder ${c} ${v} after it`),
      ...result.tests
        .filter(
          (t) =>
            t.stage === 'after' &&
            (t.finding === 'out of limits' || (t.step === 'spray' && t.finding === 'response')),
        )
        .map((t) => `confirmed with ${t.step} at ${t.at} ${t.finding}`),
      ...stillThere.map((s) => `confirmed over a ${s.fault.kind} that ${s.by} shows after the work`),
      ...(truth?.work === 'wrong' &&
      truth.captured.after !== 'good' &&
      stillThere.length === 0 &&
      !readAgain(seen.result)
        ? ['confirmed, and nothing was read again']
        : []),
    ]
  },
}

const readAgain = (result: { tests: readonly { stage: string; step: string }[] }): boolean =>
  result.tests.some((t) => t.stage === 'after' && t.step !== 'repair')
