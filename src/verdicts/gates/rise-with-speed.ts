import { median } from '../../maths/median.ts'
import type { CylinderMeasures } from '../../metrics/figures.ts'
import type { WithSpeed } from '../../metrics/with-speed.ts'
import { defineGate, type Finding } from './define-gate.ts'

/** Points of late rise between the ends of the swing that are worth a sentence. */
const LEAST_POINTS = 5

/** Late rise that follows the speed but stays within one class: both ends are said. */
export const riseWithSpeed = defineGate({
  id: 'rise-with-speed',
  limits: ['lateRisePct'],
  sources: ['project-judgement'],
  look: ({ cylinders }, { lateRisePct }) =>
    bothEnds(cylinders, (w) => classOf(w.atLow, lateRisePct) === classOf(w.atHigh, lateRisePct)),
})

/** A mixture that is in another class at one end of the swing than at the other: a finding of its own. */
export const classWithSpeed = defineGate({
  id: 'class-with-speed',
  limits: ['lateRisePct'],
  sources: ['project-judgement'],
  look: ({ cylinders }, { lateRisePct }) =>
    bothEnds(cylinders, (w) => classOf(w.atLow, lateRisePct) !== classOf(w.atHigh, lateRisePct)),
})

const classOf = (risePct: number, limitPct: number): number =>
  risePct > limitPct ? 1 : risePct < -limitPct ? -1 : 0

/** One remark for all cylinders concerned, with the middle of their figures. */
function bothEnds(cylinders: readonly CylinderMeasures[], concerned: (w: WithSpeed) => boolean): Finding[] {
  const own = cylinders.flatMap(({ cylinder, riseWithSpeed: w }) =>
    w && Math.abs(w.atHigh - w.atLow) >= LEAST_POINTS && concerned(w) ? [{ cylinder, ...w }] : [],
  )
  if (own.length === 0) return []
  const middle = (pick: (w: WithSpeed) => number): number => median(own.map(pick))!
  return [
    {
      forbids: [],
      cylinders: own.map((c) => c.cylinder),
      args: {
        cylinders: own.map((c) => c.cylinder).join(', '),
        lowRpm: Math.round(middle((w) => w.lowRpm)),
        atLow: middle((w) => w.atLow),
        highRpm: Math.round(middle((w) => w.highRpm)),
        atHigh: middle((w) => w.atHigh),
      },
    },
  ]
}
