import { verdictsIn, type Predicate } from './predicate.ts'

/** A cylinder that lies at the limit does not break the pattern that its fellows make. */
export const patternHolds: Predicate = {
  id: '4 pattern holds',
  breaches({ result, truth }) {
    if (!truth) return []
    return (['before', 'after'] as const).flatMap((stage) => {
      const faults = stage === 'before' ? truth.found : truth.captured.after === 'good' ? truth.now : []
      const [fault] = faults
      if (faults.length !== 1 || !fault || fault.cylinders.length < 3 || fault.kind === 'worn plugs')
        return []
      const verdicts = verdictsIn(result, stage)
      const of = fault.cylinders.map((c) => verdicts.get(c))
      const lean = of.filter((v) => v === 'lean').length
      const open = of.filter((v) => v === 'borderline' || v === 'not judged').length
      if (lean + open !== of.length || lean < 2 || open > of.length / 3) return []
      const pattern = result.engine[stage]?.pattern
      const right =
        fault.cylinders.length === truth.engine.cylinders ? pattern === 'all' : pattern?.startsWith('bank ')
      return right ? [] : [`${stage}: ${lean} of ${of.length} lean, ${open} open: pattern ${pattern}`]
    })
  },
}
