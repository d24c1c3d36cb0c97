import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import type { Texts } from './messages.ts'
import { misfit } from './placeholders.ts'

/** Languages a report can be written in. */
export const LANGUAGES = ['en', 'es', 'fr', 'de'] as const
export type Language = (typeof LANGUAGES)[number]

/** Folder of the package's templates, found from this file and never from the working folder. */
export const TEMPLATES = new URL('../../templates/', import.meta.url)

/**
 * First parts of keys that stay English in every language: what only the command line says, to who installs and runs the
 * program. All else can be printed in a report and has to be there in each language.
 */
const ENGLISH_ONLY = [
  'explain',
  'batch',
  'why',
  'new',
  'log',
  'peek',
  'prove',
  'redact',
  'key',
  'seal',
] as const

export const staysEnglish = (key: string): boolean =>
  (ENGLISH_ONLY as readonly string[]).includes(key.split('.')[0]!)

/** Reads a file below templates/. */
type Read = (file: string) => string

const shipped: Read = (file) => readFileSync(new URL(file, TEMPLATES), 'utf8')

/**
 * Reads templates/texts/<language>.yaml: one flat map of key to sentence; what stays English is taken from there.
 * What limits and their origins say stands in English beside their values, and for other languages in limit-texts/.
 *
 * @throws Error naming file and line where a language lacks a sentence, has one too many, or puts other things into it
 */
export function loadTexts(language: Language, read: Read = shipped): Texts {
  const file = `texts/${language}.yaml`
  const text = read(file)
  const own = sentencesOf(text)
  if (language === 'en') return { language, templates: own }
  const englishText = read('texts/en.yaml')
  const english = sentencesOf(englishText)
  const wrong = firstWrong(own, english)
  if (wrong !== undefined) {
    const { key, why } = wrong
    const [where, of] = key in own ? [file, text] : ['texts/en.yaml', englishText]
    throw new Error(
      `templates/${where}:${lineOf(of, key)}: “${key}” ${why} Mend templates/${file}, or install the program anew.`,
    )
  }
  return {
    language,
    templates: {
      ...Object.fromEntries(Object.entries(english).filter(([key]) => staysEnglish(key))),
      ...sentencesOf(read(`limit-texts/${language}.yaml`)),
      ...own,
    },
  }
}

/** The first sentence by which a language differs from English in more than its words. */
function firstWrong(
  own: Readonly<Record<string, string>>,
  english: Readonly<Record<string, string>>,
): { key: string; why: string } | undefined {
  for (const [key, sentence] of Object.entries(english)) {
    if (staysEnglish(key)) continue
    const said = own[key]
    if (typeof said !== 'string') return { key, why: 'is not said in this language.' }
    const misses = misfit(said, sentence)
    if (misses)
      return {
        key,
        why: `lacks ${misses.lacks.join(', ') || 'nothing'} and has ${misses.unknown.join(', ') || 'nothing'} beyond the English sentence.`,
      }
  }
  const unknown = Object.keys(own).find((key) => english[key] === undefined || staysEnglish(key))
  return unknown === undefined ? undefined : { key: unknown, why: 'is no sentence of this program.' }
}

/** 1-based line on which a key stands. */
const lineOf = (text: string, key: string): number =>
  text.split('\n').findIndex((line) => line.startsWith(`${key}:`)) + 1

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
