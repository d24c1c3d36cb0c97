import { defineRule } from '../define-rule.ts'
import { BESIDE_FELLOWS } from '../running.ts'

/** Borderline off idle: no fellow is level to compare with, and speed and load alone may bend a line so far. */
export const borderlineOffIdle = defineRule({
  id: 'borderline-off-idle',
  verdict: 'borderline',
  basis: 'limit',
  at: BESIDE_FELLOWS,
  needs: ['lateRisePct'],
  whenAbsent: 'not judged',
  limits: ['lateRisePct', 'offIdleBendPct'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.borderline-off-idle',
  decide: ({ lateRisePct }) => ({ lateRisePct }),
})
