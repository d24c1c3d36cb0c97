import type { ProblemArgs, ProblemCode } from '../problems/codes.ts'
import { JobError, problem } from '../problems/problem.ts'
import { foreignKind } from './foreign-file.ts'
import { openRegular } from '../files/regular-file.ts'

/**
 * Reads a small text file of the job whole.
 *
 * @param file   name as the job has it, for problems
 * @param path   where it is, links followed
 * @param limit  most bytes read
 * @returns the text, without byte-order mark
 * @throws JobError: unreadable-file, too-large, empty-file, not-text, not-utf8
 */
export async function readText({
  file,
  path,
  limit,
}: {
  file: string
  path: string
  limit: number
}): Promise<string> {
  const bytes = await readBounded({ file, path, limit })
  if (bytes.length === 0) refuse('empty-file', { file }, { path: file })
  const kind = foreignKind(bytes)
  if (kind !== undefined) refuse('not-text', { file }, { path: file, why: kind })
  const utf16 =
    bytes.length > 1 && ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
  if (utf16) refuse('not-utf8', { file, line: 1 }, { found: 'UTF-16' })
  const text = decodeUtf8(bytes)
  if (text === undefined) refuse('not-utf8', { file, line: badLine(bytes) }, { found: badBytes(bytes) })
  const nul = text.indexOf('\0')
  if (nul >= 0) refuse('not-utf8', { file, line: text.slice(0, nul).split('\n').length }, { found: '00' })
  if (text.trim() === '') refuse('empty-file', { file }, { path: file })
  return text
}

function refuse<C extends ProblemCode>(
  code: C,
  place: { file: string; line?: number },
  args: ProblemArgs[C],
): never {
  throw new JobError([problem(code, place, args)])
}

/**
 * Reads a file of the job whole. Takes one byte more than the limit at most, whatever size the system states.
 * @throws JobError: unreadable-file, too-large
 */
export async function readBounded({
  file,
  path,
  limit,
}: {
  file: string
  path: string
  limit: number
}): Promise<Uint8Array> {
  const handle = await openRegular(path).catch((cause: NodeJS.ErrnoException) => {
    throw new JobError([problem('unreadable-file', { file }, { path: file, why: reasonOf(cause) })], {
      cause,
    })
  })
  try {
    const { size } = await handle.stat()
    const room = Buffer.alloc(Math.min(size, limit) + 1)
    const { bytesRead } = await handle.read(room, 0, room.length, 0)
    if (bytesRead > limit)
      refuse(
        'too-large',
        { file },
        { path: file, size: kibibytes(Math.max(size, bytesRead)), limit: kibibytes(limit) },
      )
    return room.subarray(0, bytesRead)
  } finally {
    await handle.close()
  }
}

/** A size as it is shown, in the unit its limit is set in. */
const kibibytes = (bytes: number): string => `${Math.ceil(bytes / 1024)} KiB`

/** Why the system gave no file: its own code, which the texts may put in words. */
export const reasonOf = (cause: NodeJS.ErrnoException): string => cause.code ?? 'phrase.unknown'

function decodeUtf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return undefined // the caller says where it breaks; the decoder does not know
  }
}

/** Index of the first byte that is not UTF-8: where the text read leniently first differs from the bytes. */
function badIndex(bytes: Uint8Array): number {
  const lenient = new TextEncoder().encode(new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes))
  return lenient.findIndex((b, i) => b !== bytes[i])
}

const badLine = (bytes: Uint8Array): number =>
  bytes.subarray(0, badIndex(bytes)).filter((b) => b === 0x0a).length + 1

const badBytes = (bytes: Uint8Array): string => bytes[badIndex(bytes)]?.toString(16).padStart(2, '0') ?? ''
