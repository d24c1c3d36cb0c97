import { closeSync, constants, createReadStream, fstatSync, openSync, readFileSync, statSync } from 'node:fs'
import { open, stat, type FileHandle } from 'node:fs/promises'

/** A pipe without a writer is opened, and refused, rather than waited for; plain files do not feel it. Not on every system. */
const NO_WAIT = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)

/** Why a path is not read: `code` is said in words like the codes of the system. */
class NotRegular extends Error {
  readonly code = 'phrase.not-a-regular-file'
  constructor(path: string) {
    super(`${path}: a folder, pipe or device, no regular file`)
    this.name = 'NotRegular'
  }
}

/** Why a file is not read; the code is the system's own for a file larger than allowed. */
export class TooLarge extends Error {
  readonly code = 'EFBIG'
  constructor(path: string) {
    super(`${path}: larger than any that this program writes`)
    this.name = 'TooLarge'
  }
}

/*
 * Every file that somebody else may have made is opened here. A pipe would be waited for without end and a device may
 * never end, or do something when it is opened: the kind is asked before, and once more of what was opened.
 */

/** @throws NotRegular; the system's own error */
export function openRegularSync(path: string): number {
  if (!statSync(path).isFile()) throw new NotRegular(path)
  const file = openSync(path, NO_WAIT)
  if (fstatSync(file).isFile()) return file
  closeSync(file)
  throw new NotRegular(path)
}

/** @throws NotRegular; the system's own error */
export async function openRegular(path: string): Promise<FileHandle> {
  if (!(await stat(path)).isFile()) throw new NotRegular(path)
  const handle = await open(path, NO_WAIT)
  if ((await handle.stat()).isFile()) return handle
  await handle.close()
  throw new NotRegular(path)
}

/** A regular file's bytes. @throws as above; TooLarge */
export function readRegularSync(path: string, mostBytes = Infinity): Buffer {
  const file = openRegularSync(path)
  try {
    if (fstatSync(file).size > mostBytes) throw new TooLarge(path)
    return readFileSync(file)
  } finally {
    closeSync(file)
  }
}

/** A regular file's text, UTF-8. @throws as above */
export const readRegularText = (path: string): string => readRegularSync(path).toString('utf8')

/** A regular file's bytes. @throws as above */
export async function readRegular(path: string): Promise<Buffer> {
  const handle = await openRegular(path)
  try {
    return await handle.readFile()
  } finally {
    await handle.close()
  }
}

/** A regular file piece by piece. @throws as above */
export async function* regularChunks(path: string): AsyncGenerator<Buffer> {
  const handle = await openRegular(path)
  for await (const chunk of createReadStream(path, { fd: handle, highWaterMark: 2 ** 20 }))
    yield chunk as Buffer
}
