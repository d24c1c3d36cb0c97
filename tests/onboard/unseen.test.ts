import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { readCapture } from '../../src/capture/read-capture.ts'
import { lookAtFiles } from '../../src/cli/look-at-files.ts'
import { jobSchema } from '../../src/job/schema.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { draftJob } from '../../src/peek/draft-job.ts'
import { NO_FACTS, readFacts } from '../../src/peek/facts.ts'
import { JobError } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { sayProblem } from '../../src/texts/say-problem.ts'
import { unseenExports } from './unseen-exports.ts'

/**
 * Exports in styles made up here become a job that is whole, or end in one clear question; read as the job says, their
 * samples are those of the model that made them. `npm run bench:exports` takes them all the way to the report.
 */

const texts = loadTexts('en')
const styles = unseenExports(0.9)
/** Half the last digit written, and half a count of the coarsest. */
const TOLERANCE_KV = 0.0051

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-unseen-'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

test('they are many', () => expect(styles.length).toBeGreaterThanOrEqual(55))

test.each(styles.map((each) => [each.style, each] as const))(
  '%s',
  async (_, { files, said, ends, truth }) => {
    const paths = files.map(({ name, bytes }) => {
      writeFileSync(join(work, name), bytes)
      return join(work, name)
    })
    const look = () =>
      lookAtFiles(texts, paths, { rateHz: said?.rate, reading: readingLimits(), ask: undefined })
    if ('asks' in ends) {
      const refused = await look().then(
        () => 'nothing',
        (cause: Error) =>
          cause instanceof JobError
            ? cause.problems.map((p) => sayProblem(texts, p)).join(' ')
            : cause.message,
      )
      expect(refused).toMatch(ends.asks)
      return
    }
    const looked = await look()
    const facts = readFacts(said?.engine ?? '', { known: NO_FACTS, free: false }).facts
    const { text } = draftJob(texts, looked.files, {
      answers: { facts },
      about: { folder: 'KB-26-0417', opened: { day: '2026-03-05', ofRecording: true }, schema: '' },
    })
    const job = jobSchema.parse(parse(text))
    expect(job.engine.cylinders).toBe(4)
    const [first] = job.captures
    const carried = first!.channels.filter(({ carries }) => carries === 'secondary')
    expect(carried.map(({ cylinders }) => cylinders)).toEqual(
      ends.lean === 2
        ? ['all']
        : carried.length === 1
          ? [first!.file.includes('coil 1') ? 1 : 3]
          : [1, 2, 3, 4],
    )
    if (truth === undefined) return
    const { channels, sampleS } = await readCapture(paths[0]!, first!)
    expect(sampleS).toBeCloseTo(5e-6, 11)
    const { data } = channels.find(({ entry }) => entry.carries === 'secondary')!
    expect(data.length).toBe(truth.length)
    // Counts are written from a zero of their own, which is no matter of scale.
    const zero = first!.channels.some(({ scale }) => scale !== 1) ? data[0]! - truth[0]! : 0
    let worst = 0
    for (let i = 0; i < truth.length; i++) worst = Math.max(worst, Math.abs(data[i]! - zero - truth[i]!))
    expect(worst).toBeLessThan(zero === 0 ? TOLERANCE_KV : 2 * TOLERANCE_KV)
  },
)
