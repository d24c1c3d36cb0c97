import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { checkJob } from '../../src/chain/check-job.ts'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { recordJob } from '../../src/chain/run-job.ts'
import { lookAtFiles } from '../../src/cli/look-at-files.ts'
import { writeNewFolder } from '../../src/files/new-folder.ts'
import { LOG_HEAD } from '../../src/job/edit-log.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { draftJob } from '../../src/peek/draft-job.ts'
import { NO_FACTS, readFacts } from '../../src/peek/facts.ts'
import { JobError } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { sayProblem } from '../../src/texts/say-problem.ts'
import { unseenExports, type UnseenExport } from '../onboard/unseen-exports.ts'

/**
 *   npm run bench:exports
 *
 * Takes every style of export of tests/onboard/ from the file to the record of its report without an answer, and prints how
 * each ends: the cylinder made lean is called so, or the one clear question comes.
 */
const SECONDS = 2
const texts = loadTexts('en')
const work = mkdtempSync(join(tmpdir(), 'burnline-exports-'))

async function endOf({ files, said }: UnseenExport, folder: string): Promise<string> {
  mkdirSync(join(folder, 'raw'), { recursive: true })
  const paths = files.map(({ name, bytes }) => {
    writeFileSync(join(folder, 'raw', name), bytes)
    return join(folder, 'raw', name)
  })
  const { files: drafted, captures } = await lookAtFiles(texts, paths, {
    rateHz: said?.rate,
    reading: readingLimits(),
    ask: undefined,
  })
  const { facts } = readFacts(said?.engine ?? '', { known: NO_FACTS, free: false })
  const { text } = draftJob(texts, drafted, {
    answers: { facts },
    about: { folder: 'X-1', opened: { day: '2026-03-05', ofRecording: true }, schema: '' },
  })
  const job = join(folder, 'job')
  await writeNewFolder(job, {
    texts: new Map([
      ['job.yaml', text],
      ['test-log.csv', LOG_HEAD],
    ]),
    captures,
  })
  const { problems } = await checkJob(job, { captures: true })
  if (problems.some((p) => p.severity === 'refuse')) throw new JobError(problems)
  const options = { page: 'A4', version: 'x', program: 'x', embedCaptures: false, store: NO_STORE } as const
  return (await recordJob(job, options, texts)).result.conclusion.headline.text
}

let reached = 0
const styles = unseenExports(SECONDS)
try {
  for (const [i, each] of styles.entries()) {
    const end = await endOf(each, join(work, String(i))).catch((cause: Error) =>
      cause instanceof JobError ? cause.problems.map((p) => sayProblem(texts, p)).join(' ') : cause.message,
    )
    const { ends } = each
    const met = 'asks' in ends ? ends.asks.test(end) : end.includes(`lean on cylinder ${ends.lean};`)
    if (met) reached++
    process.stdout.write(`${met ? 'as meant' : 'NOT     '}  ${each.style}: ${end.slice(0, 160)}\n`)
    rmSync(join(work, String(i)), { recursive: true })
  }
} finally {
  rmSync(work, { recursive: true, force: true })
}
process.stdout.write(`${reached} of ${styles.length} styles end as meant\n`)
