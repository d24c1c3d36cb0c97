import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import type { Texts } from './messages.ts'

/** Languages a report can be written in. */
export const LANGUAGES = ['en', 'es', 'fr', 'de'] as const
export type Language = (typeof LANGUAGES)[number]

/** Folder of the package's templates, found from this file and never from the working folder. */
export const TEMPLATES = new URL('../../templates/', import.meta.url)

/**
 * First parts of keys that stay English in every language: what only the command line says, to who installs and runs the
 * program. All else can be printed in a report and has to be there in each language.
 */
const ENGLISH_ONLY = ['explain', 'batch', 'why', 'new', 'peek', 'prove', 'redact', 'key', 'seal'] as const

export const staysEnglish = (key: string): boolean =>
  (ENGLISH_ONLY as readonly string[]).includes(key.split('.')[0]!)

/**
 * Reads templates/texts/<language>.yaml: one flat map of key to sentence; what stays English is taken from there.
 * What limits and their origins say stands in English beside their values, and for other languages in limit-texts/.
 */
export function loadTexts(language: Language): Texts {
  const own = readTexts(language)
  if (language === 'en') return { language, templates: own }
  const english = Object.entries(readTexts('en')).filter(([key]) => staysEnglish(key))
  return {
    language,
    templates: { ...Object.fromEntries(english), ...readTexts(language, 'limit-texts'), ...own },
  }
}

const readTexts = (language: Language, folder = 'texts'): Record<string, string> =>
  sentencesOf(readFileSync(new URL(`${folder}/${language}.yaml`, TEMPLATES), 'utf8'))

/** A sentence on a line of its own, in double quotes: JSON and YAML read it alike. */
const SENTENCE = /^([\w.-]+): (".*")$/

/**
 * The sentences of a texts file. Every command needs them, and the YAML parser takes longer over them than a short
 * command over its work; so lines of the one usual form are read directly, and a file with any other as YAML.
 */
export function sentencesOf(text: string): Record<string, string> {
  const lines = text
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => SENTENCE.exec(line))
  if (lines.some((line) => line === null)) return parse(text) as Record<string, string>
  try {
    const read = Object.fromEntries(lines.map((line) => [line![1]!, JSON.parse(line![2]!) as string]))
    // A key given twice is for the YAML parser to refuse.
    return Object.keys(read).length === lines.length ? read : (parse(text) as Record<string, string>)
  } catch {
    return parse(text) as Record<string, string> // an escape that only YAML knows
  }
}
