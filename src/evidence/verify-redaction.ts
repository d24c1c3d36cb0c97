import { join } from 'node:path'
import { z } from 'zod'
import { partsOfRecord } from '../records/redact/parts.ts'
import type { Result } from '../records/result.ts'
import { commitmentsDigest, earlierPartDigest, partDigest } from '../seal/commitments.ts'
import { broken, noted, type SealFinding } from '../seal/finding.ts'
import { readSeal, sealedText, signatureFindings } from '../seal/seal-manifest.ts'
import { digestFile } from '../files/digest-file.ts'
import { readJsonText, RECORD_BOUNDS } from '../files/bounded-json.ts'

const digest = z.string().regex(/^[0-9a-f]{64}$/)

/** What a redacted copy's manifest says of its original. */
const redactionSchema = z.strictObject({
  fields: z.array(z.string()),
  /** Seal of the original's manifest, where it is signed. */
  original: z
    .strictObject({ sha256: digest, record: digest, public_key: digest, signature: z.string() })
    .nullable(),
  parts: z.array(z.strictObject({ path: z.string(), digest, salt: z.string().optional() })),
})
export type Redaction = z.infer<typeof redactionSchema>

const FILE = 'manifest.json'

/**
 * Checks what a redacted copy shows against what was signed for its original: every part shown with its salt, the whole
 * list against the signed digest. Parts without a salt are named: nothing is proven of them.
 *
 * @param text  the copy's manifest
 * @returns nothing for an output that is no redacted copy
 */
export async function checkRedaction(
  folder: string,
  text: string,
  known: { publicKey?: string; original?: string },
): Promise<SealFinding[]> {
  const { redaction } = JSON.parse(text) as { redaction?: unknown }
  if (redaction === undefined) return known.original === undefined ? [] : [broken('not-a-copy', FILE)]
  const read = redactionSchema.safeParse(redaction)
  if (!read.success) return [broken('redaction-broken', FILE, { part: 'redaction' })]
  const { original, parts } = read.data
  if (!original) return [noted('redaction-unproven', FILE)]
  if (commitmentsDigest(parts) !== original.record)
    return [broken('redaction-broken', FILE, { part: 'parts' })]
  const shown = await wrongParts(folder, parts)
  const withheld = parts.filter(({ salt }) => salt === undefined).map(({ path }) => path)
  return [
    ...shown.map((part) => broken('redaction-broken', FILE, { part })),
    ...signatureFindings(original, { file: FILE, text: sealedText(original) }, known.publicKey).filter(
      (f) => f.severity === 'broken',
    ),
    ...ofOriginal(original, known.original),
    ...(shown.length > 0
      ? []
      : [
          noted('redaction-holds', FILE, {
            shown: parts.length - withheld.length,
            withheld: withheld.join(', '),
          }),
        ]),
  ]
}

function ofOriginal(
  { sha256, record }: NonNullable<Redaction['original']>,
  text: string | undefined,
): SealFinding[] {
  if (text === undefined) return []
  const seal = readSeal(text)?.seal
  return seal?.sha256 === sha256 && seal.record === record ? [] : [broken('other-original', FILE)]
}

/** Paths shown whose value in the copy is not what was committed to, and paths of the copy that were never committed to. */
async function wrongParts(folder: string, parts: Redaction['parts']): Promise<string[]> {
  const values = recordIn(folder)
  if (!values) return ['result.json']
  const wrong: string[] = []
  for (const { path, digest: committed, salt } of parts.filter((part) => part.salt !== undefined)) {
    const value = path.startsWith('file/')
      ? await digestOf(folder, path.slice('file/'.length))
      : values.get(path)
    const digests = [partDigest, earlierPartDigest].map((of) => of({ path, value }, salt!))
    if (!digests.includes(committed)) wrong.push(path)
  }
  const known = new Set(parts.map(({ path }) => path))
  return [...wrong, ...[...values.keys()].filter((path) => !known.has(path))]
}

function recordIn(folder: string): Map<string, unknown> | undefined {
  try {
    const result = JSON.parse(readJsonText(join(folder, 'result.json'), RECORD_BOUNDS)) as Result
    return new Map(partsOfRecord(result).map(({ path, value }) => [path, value]))
  } catch {
    return undefined // missing, or changed beyond reading: nothing it shows is proven
  }
}

async function digestOf(folder: string, file: string): Promise<string | undefined> {
  try {
    return (await digestFile(join(folder, file))).sha256
  } catch {
    return undefined // missing: not what was committed to
  }
}
