import { expectedTextBytes } from '../capture/byte-source.ts'
import { readCapture } from '../capture/read-capture.ts'
import type { Job } from '../job/schema.ts'
import { loadLimits } from '../limits/limits.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { JobError } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { ORDER, type VerdictName } from '../verdicts/kinds/index.ts'
import { judgeCapture } from './judge-capture.ts'

/** Text of captures that is read for this, bytes: more would keep whoever answers waiting. */
const MOST_BYTES = 40 * 2 ** 20
const UNCERTAINTY = { voltageUncertaintyPercent: 10, timeUncertaintyPpm: 100 }

/**
 * Captures that look as if they were taken after a repair: every cylinder that is out of order in another capture of the
 * same condition is level in them. Each with the file of that other. Captures that cannot be read or judged show nothing.
 *
 * @param files  absolute paths by the names in the job
 */
export async function stagesShown(
  { captures, engine }: Pick<Job, 'captures' | 'engine'>,
  { files, reading, texts }: { files: ReadonlyMap<string, string>; reading: ReadingLimits; texts: Texts },
): Promise<ReadonlyMap<string, string>> {
  if (captures.length < 2) return new Map()
  let bytes = 0
  for (const path of files.values()) bytes += await expectedTextBytes(path)
  if (bytes > MOST_BYTES) return new Map()
  const seen: { file: string; condition: string; verdicts: ReadonlyMap<number, VerdictName> }[] = []
  for (const entry of captures)
    try {
      const capture = await readCapture(files.get(entry.file)!, entry, reading)
      const { judged } = judgeCapture(capture, {
        engine,
        instrument: UNCERTAINTY,
        limits: loadLimits(),
        texts,
      })
      seen.push({
        file: entry.file,
        condition: entry.condition,
        verdicts: new Map(judged.map((j) => [j.measures.cylinder, j.judgement.verdict])),
      })
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause // `check` says why
    }
  const isFaulty = (verdict: VerdictName): boolean => ORDER[verdict] === 'out of order'
  const inOrder = (verdict: VerdictName | undefined): boolean =>
    verdict !== undefined && ORDER[verdict] === 'in order'
  const shown = new Map<string, string>()
  for (const { file, condition, verdicts } of seen) {
    if ([...verdicts.values()].some(isFaulty)) continue
    const before = seen.find((other) => {
      const faulty = [...other.verdicts].filter(([, verdict]) => isFaulty(verdict))
      return (
        other.condition === condition &&
        faulty.length > 0 &&
        faulty.every(([cylinder]) => inOrder(verdicts.get(cylinder)))
      )
    })
    if (before) shown.set(file, before.file)
  }
  return shown
}
