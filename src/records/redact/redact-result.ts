import { JobError, problem } from '../../problems/problem.ts'
import { earlierResultSchema, type Result } from '../result.ts'
import { REDACTABLE, type RedactableField } from './fields.ts'

/** Shorter words are taken out of their own field only: elsewhere they would be found in places that mean something else. */
const SHORTEST_SOUGHT = 4

/** Text files of a job: their digests would let a withheld word be found by trying. */
const WRITTEN_INPUTS = /\.(yaml|yml)$|^test-log\.csv$/

/** What stands for a word that is taken out, and words beside those of the fields. */
export interface Masking {
  mask: string
  near?: readonly string[]
}

/** Replaces the words that are taken out wherever they stand, whatever their case and spacing. */
export type Masker = <T>(value: T) => T

/** A masker for the words of these fields, and for others that were found near them. */
export function maskerOf(
  { job, review = [] }: Pick<Result, 'job' | 'review'>,
  fields: readonly RedactableField[],
  { mask, near = [] }: Masking,
): Masker {
  const sought = fields
    .flatMap((field) => REDACTABLE[field](job, review))
    .filter((words): words is string => words !== null && words.trim().length >= SHORTEST_SOUGHT)
    .concat(near)
    .sort((a, b) => b.length - a.length)
  if (sought.length === 0) return (value) => value
  const pattern = new RegExp(sought.map(loosely).join('|'), 'giu')
  const masked = (value: unknown): unknown => {
    if (typeof value === 'string') return value.replace(pattern, () => mask)
    if (Array.isArray(value)) return value.map(masked)
    if (value !== null && typeof value === 'object' && !ArrayBuffer.isView(value)) {
      return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, masked(entry)]))
    }
    return value
  }
  return <T>(value: T) => masked(value) as T
}

const loosely = (words: string): string =>
  words
    .trim()
    .split(/\s+/)
    .map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'))
    .join('\\s+')

/**
 * A copy of a record without the words of some fields: each stands as `mask`, in its own place and wherever else it was
 * found. Photos are left out, since they may show what is withheld, and so are the digests of the written inputs.
 *
 * @throws JobError `word-of-the-record` where a word taken out is one that the record is written in: a customer called Lean
 */
export function redactResult(result: Result, fields: readonly RedactableField[], masking: Masking): Result {
  const { mask } = masking
  const masker = maskerOf(result, fields, masking)
  const masked = masker(result)
  const has = (field: RedactableField) => fields.includes(field)
  const blank = (record: Record<string, string>) =>
    Object.fromEntries(Object.keys(record).map((key) => [key, mask]))
  const word = (value: string | null, field: RedactableField) => (value !== null && has(field) ? mask : value)
  const { job } = masked
  const copy = {
    ...masked,
    job: {
      ...job,
      photos: [],
      engine: { ...job.engine, banks: banksOf(job.engine.banks, masker) },
      customer: job.customer && has('customer') ? blank(job.customer) : job.customer,
      technician: has('technician') ? blank(job.technician) : job.technician,
      shop: has('shop') ? blank(job.shop) : job.shop,
      vehicle: {
        ...job.vehicle,
        vin: word(job.vehicle.vin, 'vin'),
        plate: word(job.vehicle.plate, 'plate'),
        unit_number: word(job.vehicle.unit_number, 'unit'),
      },
      complaint: has('words') ? mask : job.complaint,
      cause: word(job.cause, 'words'),
      correction: word(job.correction, 'words'),
    },
    ...(masked.review === undefined
      ? {}
      : {
          review: masked.review.map((entry) => ({
            ...entry,
            by: has('technician') ? mask : entry.by,
            reason: has('words') ? mask : entry.reason,
          })),
        }),
    inputs: masked.inputs.map((input) =>
      WRITTEN_INPUTS.test(input.file) ? { ...input, sha256: mask } : input,
    ),
    ...(masked.handed_in === undefined
      ? {}
      : {
          handed_in: masked.handed_in.map((file) =>
            has('shop') ? { ...file, file: mask, sha256: mask } : file,
          ),
        }),
    // The original of a reissue is told by its number: the digest of what holds the words would let them be tried.
    ...(masked.revision === undefined
      ? {}
      : { revision: { ...masked.revision, replaces: { ...masked.revision.replaces, result_sha256: mask } } }),
    redacted: [...fields],
  } satisfies Result
  // Only looked at: what it gives back has its keys in another order.
  const read = earlierResultSchema.safeParse(copy)
  if (read.success) return copy
  const where = read.error.issues[0]?.path.join('/') ?? ''
  throw new JobError([problem('word-of-the-record', { file: 'result.json' }, { where })])
}

/** Banks bear the names that somebody gave them. */
const banksOf = (banks: Result['job']['engine']['banks'], masker: Masker): typeof banks =>
  banks && Object.fromEntries(Object.entries(banks).map(([name, cylinders]) => [masker(name), cylinders]))
