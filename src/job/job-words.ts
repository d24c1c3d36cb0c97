import type { WordKey } from '../texts/messages.ts'
import type { Job } from './schema.ts'

type Capture = Job['captures'][number]

/** How the engine ran while a capture was taken. */
export const CONDITION_WORDS: Readonly<Record<Capture['condition'], WordKey>> = {
  idle: 'chart.condition.idle',
  '2500 rpm': 'chart.condition.2500-rpm',
  snap: 'chart.condition.snap',
  cranking: 'chart.condition.cranking',
  cruise: 'chart.condition.cruise',
}
