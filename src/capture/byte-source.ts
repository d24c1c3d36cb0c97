import { Readable, pipeline } from 'node:stream'
import { createGunzip } from 'node:zlib'
import { JobError, problem } from '../problems/problem.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { StoredBytes } from './stored-bytes.ts'

/** Unpacked bytes handed on at a time. */
const GUNZIP_CHUNK_BYTES = 256 * 1024
/** Most that deflate can unpack one byte to (258 bytes for 2 bits, RFC 1951 3.2.5). */
const DEFLATE_MAX_RATIO = 1032
/** Shortest gzip member: header 10, empty block 2, trailer 8 bytes (RFC 1952). */
const GZIP_MIN_BYTES = 20

/** The text bytes of a file, unpacked. */
export interface ByteSource {
  gzip: boolean
  /** Length of the text in bytes as far as it can be told beforehand; for sizing arrays only. */
  expectedBytes: number
  /** A chunk is valid only until the next but one is asked for. */
  chunks: AsyncGenerator<Uint8Array>
}

/**
 * The text of a stored file, plain or gzip (told by its first two bytes, RFC 1952 2.3.1, never by its name).
 * @param limits  most bytes of text that are handed out, and most a byte may unpack to
 * @throws JobError  while reading: `gzip-broken`, `too-large`
 */
export async function openByteSource(
  stored: StoredBytes,
  limits: Pick<ReadingLimits, 'textBytes' | 'ratio'>,
): Promise<ByteSource> {
  const gzip = isGzip(await stored.peek(0, 2))
  const chunks = gzip ? gunzipped(stored) : stored.chunks(true)
  return {
    gzip,
    expectedBytes: gzip ? await statedLength(stored) : stored.size,
    chunks: limited(chunks, stored, gzip ? packedBound(stored, limits) : plainBound(limits)),
  }
}

/** Length of a file's text as far as it can be told without reading it; 0 where it cannot be opened. */
export async function expectedTextBytes(path: string): Promise<number> {
  try {
    const stored = await StoredBytes.open({ path, file: path })
    try {
      return isGzip(await stored.peek(0, 2)) ? await statedLength(stored) : stored.size
    } finally {
      await stored.close()
    }
  } catch (cause) {
    if (cause instanceof JobError) return 0 // whoever reads it says why
    throw cause
  }
}

const isGzip = (magic: Uint8Array): boolean => magic.length === 2 && magic[0] === 0x1f && magic[1] === 0x8b

/** Gzip's own length field (of its last member, modulo 2^32), held to what deflate can do. */
async function statedLength(stored: StoredBytes): Promise<number> {
  if (stored.size < GZIP_MIN_BYTES) return stored.size
  const field = await stored.peek(stored.size - 4, 4)
  return Math.min(field.readUInt32LE(0), stored.size * DEFLATE_MAX_RATIO)
}

/** Unpacks all members of a gzip stream in zlib's own threads. */
async function* gunzipped(stored: StoredBytes): AsyncGenerator<Uint8Array> {
  const gunzip = createGunzip({ chunkSize: GUNZIP_CHUNK_BYTES })
  // The callback only keeps the pipeline's error from being thrown twice: the loop below throws it.
  pipeline(Readable.from(stored.chunks(false), { highWaterMark: 1 }), gunzip, () => undefined)
  try {
    for await (const chunk of gunzip) yield chunk as Uint8Array
  } catch (cause) {
    throw broken(stored, (cause as NodeJS.ErrnoException).code ?? String(cause), cause)
  }
  await refuseTrailing(stored, gunzip.bytesWritten)
}

/** Bytes behind the last member that are not zero padding could be a damaged member: data must not vanish silently. */
async function refuseTrailing(stored: StoredBytes, from: number): Promise<void> {
  for (let at = from; at < stored.size;) {
    const rest = await stored.peek(at, GUNZIP_CHUNK_BYTES)
    if (rest.length === 0) return
    if (rest.some((byte) => byte !== 0)) throw broken(stored, 'phrase.gzip-trailing')
    at += rest.length
  }
}

const broken = (stored: StoredBytes, why: string, cause?: unknown): JobError =>
  new JobError(
    [problem('gzip-broken', { file: stored.file }, { why })],
    cause === undefined ? undefined : { cause },
  )

/** Most bytes of text, and the limit in words. */
interface Bound {
  most: number
  said: string
}

const plainBound = ({ textBytes }: { textBytes: number }): Bound => ({
  most: textBytes,
  said: sizeOf(textBytes),
})

function packedBound({ size }: StoredBytes, limits: Pick<ReadingLimits, 'textBytes' | 'ratio'>): Bound {
  const most = Math.floor(size * limits.ratio)
  return most < limits.textBytes
    ? { most, said: `${sizeOf(most)} (${limits.ratio} : 1)` }
    : plainBound(limits)
}

const sizeOf = (bytes: number): string =>
  bytes < 2 ** 20 ? `${Math.floor(bytes / 2 ** 10)} KiB` : `${Math.floor(bytes / 2 ** 20)} MiB`

async function* limited(
  chunks: AsyncGenerator<Uint8Array>,
  stored: StoredBytes,
  { most, said }: Bound,
): AsyncGenerator<Uint8Array> {
  let bytes = 0
  for await (const chunk of chunks) {
    bytes += chunk.length
    if (bytes > most)
      throw new JobError([
        problem(
          'too-large',
          { file: stored.file },
          { path: stored.file, size: `> ${sizeOf(most)}`, limit: said },
        ),
      ])
    yield chunk
  }
}
