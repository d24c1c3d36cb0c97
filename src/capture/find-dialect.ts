import { foreignKind } from '../job/foreign-file.ts'
import { JobError, problem } from '../problems/problem.ts'
import { openByteSource } from './byte-source.ts'
import type { Dialect } from './capture.ts'
import type { Hints } from './data-block.ts'
import { recognise } from './dialect.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { StoredBytes } from './stored-bytes.ts'
import { lineEndOf, TextReader, type TextHead } from './text-head.ts'

/** A head that shows no data is read on to this many times its length. */
const LENGTHEN = 4

/** The dialect of a file about which a job may say nothing, with the head it was found in. Reads no further than that. */
export async function dialectOfFile(
  path: string,
  about: { file: string } & Hints,
  limits: ReadingLimits = readingLimits(),
): Promise<{ head: TextHead; dialect: Dialect }> {
  const stored = await StoredBytes.open({ path, file: about.file })
  try {
    const { chunks } = await openByteSource(stored, limits)
    const found = await findDialect(new TextReader(chunks, about.file), about, limits)
    await chunks.return(undefined)
    return found
  } finally {
    await stored.close()
  }
}

/** Lengthens the head until it shows data. @throws JobError `not-text`, `no-data-rows`, `ambiguous-dialect`, `too-many-columns`, `line-too-long` */
export async function findDialect(
  text: TextReader,
  about: { file: string } & Hints,
  limits: ReadingLimits,
): Promise<{ head: TextHead; dialect: Dialect }> {
  refuseForeign(await text.head(), about.file)
  for (let head = await text.head(); ; head = await text.head(head.bytes.length * LENGTHEN)) {
    const found = recognise(head, about)
    if (found.ok) {
      const { columns, dataLine } = found.dialect
      if (columns <= limits.columns) return { head, dialect: found.dialect }
      throw new JobError([
        problem(
          'too-many-columns',
          { file: about.file, line: dataLine },
          { found: columns, limit: limits.columns },
        ),
      ])
    }
    if (!found.needsMore || head.bytes.length >= limits.headBytes) throw new JobError(found.problems)
    refuseEndlessLine(head, { file: about.file, lineBytes: limits.lineBytes })
  }
}

/** A file of another kind is told by what it is, not by the figures it lacks. */
function refuseForeign({ bytes }: TextHead, file: string): void {
  const kind = foreignKind(bytes)
  if (kind !== undefined) throw new JobError([problem('not-text', { file }, { path: file, why: kind })])
}

/** A head that stays without line end is no text to look for more of. */
function refuseEndlessLine(head: TextHead, { file, lineBytes }: { file: string; lineBytes: number }): void {
  const lineEnd = lineEndOf(head.bytes)
  if (head.bytes.length - head.bytes.lastIndexOf(lineEnd) <= lineBytes) return
  let line = 1
  for (let at = head.bytes.indexOf(lineEnd); at >= 0; at = head.bytes.indexOf(lineEnd, at + 1)) line++
  throw new JobError([problem('line-too-long', { file, line }, { limit: lineBytes })])
}
