import { defineRule } from '../define-rule.ts'

/** Not judged: a verdict never rests on fewer complete events than the limit. */
export const tooFewEvents = defineRule({
  id: 'too-few-events',
  verdict: 'not judged',
  needs: ['eventCount'],
  whenAbsent: 'not judged',
  limits: ['minEvents'],
  sources: ['project-judgement'],
  says: 'verdict.too-few-events',
  decide: ({ eventCount }, { minEvents }) =>
    eventCount.value < minEvents ? { events: eventCount.value, minEvents } : undefined,
})
