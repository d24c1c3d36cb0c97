import type { Texts } from './messages.ts'
import { PROBLEM_WORDS, type CodeWords } from './problem-words.ts'
import { REMARK_WORDS } from './remark-words.ts'
import { say } from './say.ts'

/** A code explained: what it means, an example, what to do. */
export interface Explanation {
  code: string
  means: string
  example: string
  toDo: string
}

const CODES: Readonly<Record<string, CodeWords>> = { ...PROBLEM_WORDS, ...REMARK_WORDS }
const wordsOf = (code: string): CodeWords | undefined =>
  Object.hasOwn(CODES, code) ? CODES[code] : undefined

/** What a code means, in the reader's language: a roll-up prints it beside the code. Empty for a code nobody reports. */
export function meaningOf(texts: Texts, code: string): string {
  const words = wordsOf(code)
  return words === undefined ? '' : say(texts, words.means)
}

/** Every code of a problem or of a remark on a capture that can be explained, in the order of the alphabet. */
export const explainedCodes = (): string[] => Object.keys(CODES).sort()

/** @returns undefined for a code nobody reports */
export function explain(texts: Texts, code: string): Explanation | undefined {
  const words = wordsOf(code)
  if (words === undefined) return undefined
  const [example = '', toDo = ''] = say(texts, words.explains).split('\n')
  return { code, means: say(texts, words.means), example, toDo }
}
