import type { Interval } from '../units/measured.ts'

/** What can stand in a sentence: a number, words, or a quantity with its interval. */
export type TextArg = number | string | Interval
export type TextArgs = Readonly<Record<string, TextArg>>

/** All sentences of one language: key -> template with {placeholders}. Read once from templates/texts/<language>.yaml. */
export interface Texts {
  language: string
  templates: Readonly<Record<string, string>>
}
