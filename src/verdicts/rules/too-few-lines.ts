import { defineRule } from '../define-rule.ts'

/** Not judged: enough turns to tell the circuit by, but too few spark lines for a verdict on the mixture. */
export const tooFewLines = defineRule({
  id: 'too-few-lines',
  verdict: 'not judged',
  needs: ['lineCount'],
  whenAbsent: 'not judged',
  limits: ['minEvents'],
  sources: ['project-judgement'],
  says: 'verdict.too-few-lines',
  decide: ({ lineCount }, { minEvents }) =>
    lineCount.value < minEvents ? { lines: lineCount.value, minEvents } : undefined,
})
