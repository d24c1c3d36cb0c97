import { makeRandom } from '../../../src/maths/random.ts'
import type { Texts } from '../../../src/texts/messages.ts'
import { Finding, outcomeOf, type Outcome } from './outcome.ts'
import type { FuzzInput, FuzzReader } from './reader.ts'

/** A run may be repeated from these two numbers alone: case `i` is made from seed `FIRST_SEED + i`. */
export const FIRST_SEED = 20_260_304
/** No input may take longer, ms by the clock it is measured with. */
export const LONGEST_MS = 10_000

/** What a run over one reader came to. */
export interface FuzzTotals {
  reader: string
  ends: Record<Outcome, number>
  slowestMs: number
  findings: readonly FuzzFinding[]
}
export interface FuzzFinding {
  reader: string
  at: number
  seed: string
  what: string
  bytes: Buffer
}

/** The input of one case. */
export const caseOf = (reader: FuzzReader, at: number): FuzzInput => reader.draw(makeRandom(FIRST_SEED + at))

/**
 * Reads cases `from` up to `to` of one reader. A finding does not stop the run.
 *
 * @param told  called before each case with its number, so that a watcher sees one that never ends
 * @param nowMs a clock
 */
export async function fuzzReader(
  reader: FuzzReader,
  span: { from: number; to: number },
  about: { texts: Texts; nowMs: () => number; told?: (at: number) => void },
): Promise<FuzzTotals> {
  const ends: Record<Outcome, number> = { right: 0, flagged: 0, refused: 0 }
  const findings: FuzzFinding[] = []
  let slowestMs = 0
  for (let at = span.from; at < span.to; at++) {
    about.told?.(at)
    const { seed, bytes, read } = caseOf(reader, at)
    const start = about.nowMs()
    try {
      ends[await outcomeOf(about.texts, read)]++
      const took = about.nowMs() - start
      slowestMs = Math.max(slowestMs, took)
      if (took > LONGEST_MS) throw new Finding(`took ${Math.round(took)} ms`)
    } catch (cause) {
      if (!(cause instanceof Finding)) throw cause
      findings.push({ reader: reader.name, at, seed, what: cause.message, bytes })
    }
  }
  return { reader: reader.name, ends, slowestMs, findings }
}
