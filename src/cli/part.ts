import type { Part } from '../batch/split.ts'
import { UsageError } from './usage-error.ts'

/** `i/n` as written on a command line. @throws UsageError for anything else */
export function readPart(words: string): Part {
  const [, index, of] = /^(\d+)\/(\d+)$/.exec(words)?.map(Number) ?? []
  if (index === undefined || of === undefined || index < 1 || index > of) {
    throw new UsageError(`--part takes i/n with i from 1 to n, such as 2/5; found “${words}”`)
  }
  return { index, of }
}
