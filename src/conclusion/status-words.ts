import type { WordKey } from '../texts/messages.ts'
import type { EngineClass } from './words.ts'

/** What a reader is told of the state of an engine. */
export const STATUS_WORDS: Readonly<Record<EngineClass, WordKey>> = {
  fault: 'report.status.fault',
  suspected: 'report.status.suspected',
  'not known': 'report.status.not-known',
  'in order': 'report.status.in-order',
}
