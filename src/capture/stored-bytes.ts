import { createHash } from 'node:crypto'
import { constants } from 'node:fs'
import { open, type FileHandle } from 'node:fs/promises'
import { JobError, problem } from '../problems/problem.ts'

/** Bytes asked of the file at a time; two such buffers are used in turn. */
const CHUNK_BYTES = 512 * 1024

/** A pipe without a writer is opened, and refused, rather than waited for; plain files do not feel it. Not on every system. */
const NO_WAIT = constants.O_NONBLOCK ?? 0

/** A file's hash and size, taken from the very bytes that were decoded. */
export interface StoredFile {
  sha256: string
  bytes: number
}

/** Reads a file once from end to end, hashing what it hands out. */
export class StoredBytes {
  readonly file: string
  readonly size: number
  readonly #handle: FileHandle
  readonly #modifiedMs: number
  readonly #hash = createHash('sha256')
  #position = 0

  private constructor(file: string, handle: FileHandle, stat: { size: number; mtimeMs: number }) {
    this.file = file
    this.#handle = handle
    this.size = stat.size
    this.#modifiedMs = stat.mtimeMs
  }

  /**
   * @param place  absolute path and the name problems carry
   * @throws JobError `missing-file`, `unreadable-file`, `empty-file`
   */
  static async open(place: { path: string; file: string }): Promise<StoredBytes> {
    const { path, file } = place
    const handle = await openFile(path, file)
    const stat = await handle.stat()
    if (stat.isFile() && stat.size > 0) return new StoredBytes(file, handle, stat)
    await handle.close()
    throw new JobError([
      stat.isFile()
        ? problem('empty-file', { file }, { path: file })
        : problem('unreadable-file', { file }, { path: file, why: 'phrase.not-a-regular-file' }),
    ])
  }

  /** Bytes at a place of the file, outside the running read and hash. Fewer than asked at the end. */
  async peek(position: number, length: number): Promise<Buffer> {
    const { buffer, bytesRead } = await this.#handle.read(Buffer.alloc(length), 0, length, position)
    return buffer.subarray(0, bytesRead)
  }

  /**
   * The file's bytes from where the last read stopped, the next chunk being read while the last is worked on.
   * @param reuse  a chunk is valid only until the next but one is asked for; otherwise each is its own
   */
  async *chunks(reuse: boolean): AsyncGenerator<Uint8Array> {
    const buffers = [Buffer.allocUnsafeSlow(CHUNK_BYTES), Buffer.allocUnsafeSlow(CHUNK_BYTES)]
    const ask = (turn: number, position: number) => {
      const into = reuse ? buffers[turn % 2]! : Buffer.allocUnsafeSlow(CHUNK_BYTES)
      return this.#handle.read(into, 0, CHUNK_BYTES, position)
    }
    let pending = ask(0, this.#position)
    for (let turn = 1; ; turn++) {
      const { bytesRead, buffer } = await pending
      if (bytesRead === 0) return
      this.#position += bytesRead
      pending = ask(turn, this.#position)
      pending.catch(() => undefined) // awaited in the next turn; an abandoned read must not end the program
      const chunk = buffer.subarray(0, bytesRead)
      this.#hash.update(chunk)
      yield chunk
    }
  }

  /**
   * Reads and hashes whatever is left, then vouches for the whole.
   * @throws JobError `changed-while-read` when size or time stamp moved, or fewer bytes came than the file had
   */
  async finish(): Promise<StoredFile> {
    const rest = this.chunks(true)
    while (!(await rest.next()).done) {
      /* hashed on the way */
    }
    const now = await this.#handle.stat()
    if (this.#position !== this.size || now.size !== this.size || now.mtimeMs !== this.#modifiedMs) {
      throw new JobError([problem('changed-while-read', { file: this.file }, { path: this.file })])
    }
    return { sha256: this.#hash.digest('hex'), bytes: this.size }
  }

  close(): Promise<void> {
    return this.#handle.close()
  }
}

async function openFile(path: string, file: string): Promise<FileHandle> {
  try {
    return await open(path, constants.O_RDONLY | NO_WAIT)
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? 'unknown'
    throw new JobError(
      [
        code === 'ENOENT'
          ? problem('missing-file', { file }, { path: file, nearest: '' })
          : problem('unreadable-file', { file }, { path: file, why: code }),
      ],
      { cause },
    )
  }
}
