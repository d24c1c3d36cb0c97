import { excerpt } from '../job/excerpt.ts'
import type { Inspection } from '../job/inspect-job.ts'
import { JOB_FILE } from '../job/own-files.ts'
import { pathName } from '../job/schema-problems.ts'
import type { ReviewEntry } from '../job/schema.ts'
import { nearest } from '../problems/nearest.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { CAUSE_WORDS } from '../verdicts/causes/cause-kinds.ts'
import { verdictNames } from '../verdicts/verdict-names.ts'

/** What a review may say instead: the verdicts and causes a report knows, in the words of its records. */
const KNOWN: Readonly<Record<ReviewEntry['of'], readonly string[]>> = {
  verdict: verdictNames,
  cause: Object.keys(CAUSE_WORDS),
}

/** Reviews whose word is none of the report's, each with the nearest one. */
export const reviewProblems = ({ reviews, lineOf }: Pick<Inspection, 'reviews' | 'lineOf'>): Problem[] =>
  reviews.flatMap(({ path, entry: { of, instead } }) => {
    const known = KNOWN[of]
    if (known.includes(instead)) return []
    const key = pathName([...path, 'instead'])
    const line = lineOf(key)
    return [
      problem(
        'review-unknown',
        { file: JOB_FILE, ...(line === undefined ? {} : { line }) },
        { key, found: excerpt(instead), nearest: nearest(instead, known), known: known.join(', ') },
      ),
    ]
  })
