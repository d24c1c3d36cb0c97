import type { TextKey } from './catalogue.ts'
import { formatArg } from './format-quantity.ts'
import type { Arg, ArgList, Given, Sentence, Texts, WordKey } from './messages.ts'

/** A sentence as it stands in a record, of which the compiler knows nothing. */
export interface SavedSentence {
  readonly key: string
  readonly args: Readonly<Record<string, unknown>>
}

/**
 * A sentence of the catalogue with its arguments put in.
 * A placeholder is {name} or {name:format}; formats are listed in format-quantity.ts. A sentence within another stands
 * without the full stop marked {.} at its end, or with it where the placeholder says {name:whole}.
 */
export function say(texts: Texts, said: Sentence): string
export function say<K extends TextKey>(texts: Texts, key: K, ...args: Given<K>): string
export function say(texts: Texts, said: Sentence | TextKey, args?: SavedSentence['args']): string {
  return typeof said === 'string'
    ? words(texts, { key: said, args: args ?? {} }, true)
    : words(texts, said, true)
}

/**
 * A sentence of a record again, perhaps in another language than the record's.
 * @throws Error for a key or argument that is not there
 */
export const sayAgain = (texts: Texts, saved: SavedSentence): string => words(texts, saved, true)

function words(texts: Texts, { key, args }: SavedSentence, alone: boolean): string {
  const template = texts.templates[key]
  if (template === undefined) throw new Error(`no text for '${key}' in ${texts.language}`)
  return template.replace(/\{(\w+|\.)(?::([\w.]+))?\}/g, (_, name: string, format?: string) => {
    if (name === '.') return alone ? '.' : ''
    const arg = args[name] as Arg | undefined
    if (arg === undefined) throw new Error(`text '${key}' needs '${name}'`)
    return argument(texts, arg, format)
  })
}

function argument(texts: Texts, arg: Arg, format: string | undefined): string {
  if (typeof arg === 'object') {
    if ('words' in arg) return arg.words
    if ('key' in arg) return words(texts, arg, format === 'whole')
    if ('list' in arg) return listed(texts, arg, format)
  }
  return formatArg(arg, { format, language: texts.language })
}

const SIGNS = { comma: 'list.comma', semicolon: 'list.semicolon' } as const

function listed(texts: Texts, { list, joined }: ArgList, format: string | undefined): string {
  const each = list.map((item) => argument(texts, item, format))
  if (joined !== 'and') return each.join(joined === 'slash' ? ' / ' : say(texts, SIGNS[joined]))
  if (each.length < 2) return each.join('')
  return say(texts, 'list.and', {
    first: each.slice(0, -1).join(say(texts, 'list.comma')),
    last: each.at(-1)!,
  })
}

/** `say` with its texts put in. */
export interface Sayer {
  (said: Sentence): string
  <K extends TextKey>(key: K, ...args: Given<K>): string
}
export const sayer = (texts: Texts): Sayer => say.bind(undefined, texts) as Sayer

/** The word a table has for `word`; a name the table does not know, from a job, a log or another version, as it is. */
export const wordOf = (texts: Texts, table: Readonly<Record<string, WordKey>>, word: string): string =>
  Object.hasOwn(table, word) ? say(texts, table[word]!) : word
