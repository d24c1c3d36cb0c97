import { problem } from '../../problems/problem.ts'
import { excerpt } from '../excerpt.ts'
import type { KeyPath, YamlFile } from '../yaml-document.ts'
import type { Check } from './check.ts'

/** A text that stands in typographic quotation marks, which YAML takes for letters. */
const IN_WORD_QUOTES = /^[\u00ab\u00bb\u2018-\u201f\u2039\u203a].*[\u00ab\u00bb\u2018-\u201f\u2039\u203a]$/s

/** Warns of values in a word processor's quotation marks: they become part of the name. */
export const wordQuotes: Check = function* (_, yaml) {
  for (const { path, text } of texts(yaml, [], yaml.data)) {
    if (!IN_WORD_QUOTES.test(text)) continue
    yield problem('word-quotes', { ...yaml.valuePlace(path), severity: 'warn' }, { found: excerpt(text) })
  }
}

function* texts(yaml: YamlFile, path: KeyPath, value: unknown): Generator<{ path: KeyPath; text: string }> {
  if (typeof value === 'string') yield { path, text: value }
  if (Array.isArray(value)) for (const [i, each] of value.entries()) yield* texts(yaml, [...path, i], each)
  else if (typeof value === 'object' && value !== null)
    for (const [key, each] of Object.entries(value)) yield* texts(yaml, [...path, key], each)
}
