import { regularChunks } from './regular-file.ts'

const LINE_FEED = 0x0a

/**
 * The lines of a regular file, one after the other, their line ends left out. A line that is longer than allowed is
 * `undefined`, and the last: it is not held in memory to find its end.
 */
export async function* regularLines(path: string, mostBytes: number): AsyncGenerator<Buffer | undefined> {
  let held: Buffer[] = []
  let length = 0
  for await (const chunk of regularChunks(path)) {
    let from = 0
    for (let end = chunk.indexOf(LINE_FEED); end >= 0; end = chunk.indexOf(LINE_FEED, from)) {
      yield length + end - from > mostBytes ? undefined : Buffer.concat([...held, chunk.subarray(from, end)])
      held = []
      length = 0
      from = end + 1
    }
    if (from === chunk.length) continue
    held.push(chunk.subarray(from))
    length += chunk.length - from
    if (length > mostBytes) return void (yield undefined)
  }
  if (length > 0) yield Buffer.concat(held)
}
