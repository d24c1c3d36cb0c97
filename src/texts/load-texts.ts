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
  const templates = parse(readFileSync(new URL(`texts/${language}.yaml`, TEMPLATES), 'utf8')) as Record<string, string>
  return { language, templates }
}
