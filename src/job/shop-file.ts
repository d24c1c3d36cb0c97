import { basename, dirname, join } from 'node:path'
import { z } from 'zod'
import { sha256 } from '../maths/sha256.ts'
import { readPictureHead } from '../pictures/picture-head.ts'
import { MOST_UNPACKED_PIXELS } from '../pictures/picture-look.ts'
import { lookAtPicture } from '../pictures/look-at-picture.ts'
import { readSvg } from '../pictures/svg-drawing.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { LANGUAGES, type Language } from '../texts/load-texts.ts'
import { instrumentSchema, shopSchema, technicianSchema } from './schema.ts'
import { readBounded, readText } from './read-text.ts'
import { schemaProblems } from './schema-problems.ts'
import { readYaml } from './yaml-document.ts'

const text = z.string('phrase.text').trim().min(1, 'phrase.text')

/** A shop's own file, kept once and used with every job: what job.yaml leaves out of `shop`, the logo, and how its reports are written. */
export const shopFileSchema = z.strictObject(
  {
    format: z.literal(1),
    ...shopSchema.partial().shape,
    logo: text.optional().describe('PNG, JPEG or plain SVG, relative to this file.'),
    language: z.enum(LANGUAGES).optional().describe('Language of the reports; --language goes before it.'),
    technician: technicianSchema.optional().describe('Put into each new job by `burnline new`.'),
    instrument: instrumentSchema
      .optional()
      .describe('Scope and pickup; put into each new job by `burnline new`.'),
    page: z.enum(['A4', 'LETTER']).optional().describe('Paper of the reports; --page goes before it.'),
  },
  'phrase.mapping',
)

/** A shop file read: the shop's particulars, its logo's bytes, its wishes, and the digests of the files that went in. */
export interface ShopFile {
  shop: Partial<z.infer<typeof shopSchema>>
  logo: Uint8Array | undefined
  language: Language | undefined
  page: 'A4' | 'LETTER' | undefined
  /** What a new job takes from here; a report says what job.yaml says. */
  forNewJobs: Pick<z.infer<typeof shopFileSchema>, 'technician' | 'instrument'>
  /** By name alone: where a shop keeps them is no business of the report. */
  files: readonly HandedIn[]
}

/** A file that is no part of the job folder and bears on the report. */
interface HandedIn {
  what: 'shop' | 'logo'
  file: string
  sha256: string
  bytes: number
}

const MOST_SHOP_BYTES = 64 * 1024
const MOST_LOGO_BYTES = 4 * 1024 * 1024
/** Pixels of a logo at most: forty times what its place on paper shows at 300 to the inch. */
const MOST_LOGO_PIXELS = MOST_UNPACKED_PIXELS

/**
 * Reads a shop file and looks at its logo.
 *
 * @param path  of the shop file; the logo may lie anywhere, since the shop names it itself
 * @throws JobError with every problem of the file and the logo
 */
export async function readShopFile(path: string): Promise<ShopFile> {
  const place = { file: path, path, limit: MOST_SHOP_BYTES }
  const written = handedIn('shop', path, await readBounded(place))
  const yaml = readYaml(path, await readText(place))
  const problems: Problem[] = [...yaml.problems, ...schemaProblems(shopFileSchema, yaml)]
  const parsed = shopFileSchema.safeParse(yaml.data)
  if (!parsed.success || problems.length > 0) throw new JobError(problems)
  const { name: shopName, address, phone, email, registration, logo: name, language, page } = parsed.data
  const forNewJobs = { technician: parsed.data.technician, instrument: parsed.data.instrument }
  const shop = given({ name: shopName, address, phone, email, registration })
  if (name === undefined) return { shop, logo: undefined, language, page, forNewJobs, files: [written] }
  const logoPath = join(dirname(path), name)
  const logo = await readBounded({ file: name, path: logoPath, limit: MOST_LOGO_BYTES })
  const found = await logoProblem(name, logo)
  if (found) throw new JobError([{ ...found, ...yaml.valuePlace(['logo']) }])
  return { shop, logo, language, page, forNewJobs, files: [written, handedIn('logo', logoPath, logo)] }
}

const handedIn = (what: HandedIn['what'], path: string, data: Uint8Array): HandedIn => ({
  what,
  file: basename(path),
  sha256: sha256(data),
  bytes: data.length,
})

/** What keeps a logo from being drawn; SVG is told by its first sign. */
async function logoProblem(path: string, data: Uint8Array): Promise<Problem | undefined> {
  if (data[0] === '<'.charCodeAt(0)) {
    const look = readSvg(new TextDecoder().decode(data))
    return look.ok ? undefined : problem('logo-unsupported', { file: path }, { path, why: look.found })
  }
  const head = readPictureHead(data)
  if (head.ok && head.head.widthPx * head.head.heightPx > MOST_LOGO_PIXELS)
    return problem('picture-too-large', { file: path }, { path, limit: MOST_LOGO_PIXELS / 1e6 })
  const look = await lookAtPicture(data)
  return look.ok ? undefined : problem('logo-unsupported', { file: path }, { path, why: look.why })
}

/** The particulars that were given. */
const given = (fields: ShopFile['shop']): ShopFile['shop'] =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined))
