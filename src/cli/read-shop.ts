import { JobError } from '../problems/problem.ts'
import { readShopFile, type ShopFile } from '../job/shop-file.ts'
import { LANGUAGES, loadTexts, type Language } from '../texts/load-texts.ts'
import type { Texts } from '../texts/messages.ts'
import { languageMeant, paperMeant } from './meant.ts'
import { readOwnTexts } from './read-texts.ts'
import { refusedFile } from './refused-file.ts'

/** How the reports of a call are written, as its command line and its shop file have it. */
export interface Written {
  texts: Texts
  page: 'A4' | 'LETTER'
  shop?: ShopFile
}

/** Options that every command takes that writes reports. */
export const WRITING_OPTIONS = {
  page: {
    choices: ['A4', 'LETTER'],
    coerce: paperMeant,
    describe: 'Paper; default: the shop file’s, else A4',
  },
  language: {
    choices: LANGUAGES,
    coerce: languageMeant,
    describe: 'Language of the report; default: the shop file’s, else en',
  },
  shop: {
    type: 'string',
    describe: 'The shop’s own file: letterhead, logo, language and paper of its reports',
  },
  texts: {
    type: 'string',
    describe:
      'YAML file of sentences the shop says its own way (language: { key: sentence }); the report lists them',
  },
} as const

export interface WritingArgs {
  page: 'A4' | 'LETTER' | undefined
  language: Language | undefined
  shop: string | undefined
  texts: string | undefined
}

/**
 * Language, sentences and paper: what the command line says goes before the shop file, and the shop file before English on A4.
 * @throws UsageError with every problem of the shop file, or of the shop's sentences
 */
export async function readWriting({ page, language, shop: path, texts }: WritingArgs): Promise<Written> {
  const shop = path === undefined ? undefined : await readShop(path)
  return {
    texts: await readTexts(texts, language ?? shop?.language ?? 'en'),
    page: page ?? shop?.page ?? 'A4',
    ...(shop === undefined ? {} : { shop }),
  }
}

async function readTexts(path: string | undefined, language: Language): Promise<Texts> {
  if (path === undefined) return loadTexts(language)
  try {
    return await readOwnTexts(path, language)
  } catch (cause) {
    throw cause instanceof JobError ? refusedFile('texts', cause) : cause
  }
}

async function readShop(path: string): Promise<ShopFile> {
  try {
    return await readShopFile(path)
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    throw refusedFile('shop', cause)
  }
}
