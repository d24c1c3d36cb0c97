import { conclusionOf, verdictsIn, type Predicate } from './predicate.ts'

/** Never confidently wrong: no verdict on a sound cylinder, none that calls a plain fault level, no other cause `clear`. */
export const trueToLife: Predicate = {
  id: '10 not confidently wrong',
  breaches(seen) {
    const { result, truth } = seen
    if (!truth) return []
    const { faults } = conclusionOf(seen)
    const causes = new Set([...truth.found, ...truth.now].map((f) => f.cause))
    return [
      ...verdicts('before'),
      ...(truth.captured.after === 'good' || truth.captured.after === 'cold' ? verdicts('after') : []),
      ...faults
        .filter((f) => f.standing === 'clear' && !causes.has(f.cause))
        .map((f) => `${f.cause} ${f.place ?? ''} is clear; true: ${[...causes].join(', ') || 'nothing'}`),
    ]

    function verdicts(stage: 'before' | 'after'): string[] {
      const waves = truth!.facts[stage].cylinders
      return [...verdictsIn(result, stage)].flatMap(([c, verdict]) => {
        const { latePct, openShare } = waves.get(c)!
        const plain =
          openShare > 0
            ? 'circuit'
            : Math.abs(latePct) >= PLAIN_PCT
              ? latePct > 0
                ? 'lean'
                : 'falling'
              : Math.abs(latePct) <= SOUND_PCT
                ? 'level'
                : undefined
        if (plain === undefined || verdict === 'not judged' || verdict === 'borderline') return []
        const said = verdict === 'level' ? 'level' : (FAMILY[verdict] ?? verdict)
        return said === plain
          ? []
          : [`cylinder ${c} ${stage} is ${verdict}; made ${plain} (${latePct.toFixed(0)} %)`]
      })
    }
  },
}

const PLAIN_PCT = 30
const SOUND_PCT = 10
const FAMILY: Readonly<Record<string, string>> = {
  lean: 'lean',
  falling: 'falling',
  rich: 'falling',
  'low compression': 'falling',
  'open secondary': 'circuit',
  'external resistance': 'circuit',
  misfiring: 'circuit',
}
