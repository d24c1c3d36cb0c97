import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import type { Texts } from './messages.ts'

/** Languages a report can be written in. */
export const LANGUAGES = ['en'] as const
export type Language = (typeof LANGUAGES)[number]

/** Folder of the package's templates, found from this file and never from the working folder. */
export const TEMPLATES = new URL('../../templates/', import.meta.url)

/** Reads templates/texts/<language>.yaml: one flat map of key to sentence. */
export function loadTexts(language: Language): Texts {
  return { language, templates: sentencesOf(readFileSync(new URL(`texts/${language}.yaml`, TEMPLATES), 'utf8')) }
}

/** A sentence on a line of its own, in double quotes: JSON and YAML read it alike. */
const SENTENCE = /^([\w.-]+): (".*")$/

/**
 * The sentences of a texts file. Every command needs them, and the YAML parser takes longer over them than a short
 * command over its work; so lines of the one usual form are read directly, and a file with any other as YAML.
 */
export function sentencesOf(text: string): Record<string, string> {
  const lines = text.split('\n').filter((line) => line !== '' && !line.startsWith('#')).map((line) => SENTENCE.exec(line))
  if (lines.some((line) => line === null)) return parse(text) as Record<string, string>
  try {
    const read = Object.fromEntries(lines.map((line) => [line![1]!, JSON.parse(line![2]!) as string]))
    // A key given twice is for the YAML parser to refuse.
    return Object.keys(read).length === lines.length ? read : parse(text) as Record<string, string>
  } catch {
    return parse(text) as Record<string, string> // an escape that only YAML knows
  }
}
