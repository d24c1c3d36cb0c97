import type { Texts } from './messages.ts'

/** A code explained: what it means, an example, what to do. */
export interface Explanation {
  code: string
  means: string
  example: string
  toDo: string
}

const PREFIX = 'explain.'

/** What a code means, in the reader's language: a roll-up prints it beside the code. Empty for a code nobody reports. */
export const meaningOf = (texts: Texts, code: string): string =>
  Object.hasOwn(texts.templates, `meaning.${code}`) ? texts.templates[`meaning.${code}`]! : ''

/** Every code of a problem or of a remark on a capture that can be explained, in the order of the alphabet. */
export const explainedCodes = (texts: Texts): string[] =>
  Object.keys(texts.templates)
    .filter((key) => key.startsWith(PREFIX))
    .map((key) => key.slice(PREFIX.length))
    .sort()

/** @returns undefined for a code nobody reports */
export function explain(texts: Texts, code: string): Explanation | undefined {
  if (!Object.hasOwn(texts.templates, PREFIX + code)) return undefined
  const [example = '', toDo = ''] = texts.templates[PREFIX + code]!.split('\n')
  return { code, means: meaningOf(texts, code), example, toDo }
}
