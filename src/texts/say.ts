import { formatArg } from './format-quantity.ts'
import type { TextArgs, Texts } from './messages.ts'

/**
 * The sentence of `key` with its arguments put in.
 * A placeholder is {name} or {name:format}; formats are listed in format-quantity.ts.
 * @throws Error for a key or argument that is not there: a missing text is our fault, never shown as a blank.
 */
export function say(texts: Texts, key: string, args: TextArgs = {}): string {
  const template = texts.templates[key]
  if (template === undefined) throw new Error(`no text for '${key}' in ${texts.language}`)
  return template.replace(/\{(\w+)(?::([\w.]+))?\}/g, (_, name: string, format?: string) => {
    const arg = args[name]
    if (arg === undefined) throw new Error(`text '${key}' needs '${name}'`)
    return formatArg(arg, { format, language: texts.language })
  })
}
