import { JobError } from '../problems/problem.ts'
import { readShopFile, type ShopFile } from '../job/shop-file.ts'
import { LANGUAGES, type Language } from '../texts/load-texts.ts'
import { refusedFile } from './refused-file.ts'

/** How the reports of a call are written, as its command line and its shop file have it. */
export interface Written {
  language: Language
  page: 'A4' | 'LETTER'
  shop?: ShopFile
}

/** Options that every command takes that writes reports. */
export const WRITING_OPTIONS = {
  page: { choices: ['A4', 'LETTER'], describe: 'Paper; default: the shop file’s, else A4' },
  language: { choices: LANGUAGES, describe: 'Language of the report; default: the shop file’s, else en' },
  shop: {
    type: 'string',
    describe: 'The shop’s own file: letterhead, logo, language and paper of its reports',
  },
} as const

export interface WritingArgs {
  page: 'A4' | 'LETTER' | undefined
  language: Language | undefined
  shop: string | undefined
}

/**
 * Language and paper: what the command line says goes before the shop file, and the shop file before English on A4.
 * @throws UsageError with every problem of the shop file
 */
export async function readWriting({ page, language, shop: path }: WritingArgs): Promise<Written> {
  const shop = path === undefined ? undefined : await readShop(path)
  return {
    language: language ?? shop?.language ?? 'en',
    page: page ?? shop?.page ?? 'A4',
    ...(shop === undefined ? {} : { shop }),
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
