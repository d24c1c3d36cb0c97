import { JobError, type Problem } from '../../../src/problems/problem.ts'
import { sayProblem } from '../../../src/texts/say-problem.ts'
import type { Texts } from '../../../src/texts/messages.ts'

/** How an input may end: read in order, read with remarks, or refused with a code. Anything else is a finding. */
export type Outcome = 'right' | 'flagged' | 'refused'

/** Something that must never happen: an error without a code, a figure the text does not hold, a problem nobody can say. */
export class Finding extends Error {
  constructor(what: string, options?: ErrorOptions) {
    super(what, options)
    this.name = 'Finding'
  }
}

/** Runs one reading and says how it ended. @throws Finding */
export async function outcomeOf(texts: Texts, read: () => Promise<readonly Problem[]>): Promise<Outcome> {
  try {
    return told(texts, await read())
  } catch (cause) {
    if (cause instanceof Finding) throw cause
    if (!(cause instanceof JobError)) throw new Finding(`error without a code: ${String(cause)}`, { cause })
    if (told(texts, cause.problems) !== 'refused') throw new Finding('refused without a problem that refuses')
    return 'refused'
  }
}

/** Every problem has a sentence on one line. */
function told(texts: Texts, problems: readonly Problem[]): Outcome {
  for (const p of problems) {
    if (p.code === 'internal-error') throw new Finding('internal-error')
    if (/[\u0000-\u001f\u202a-\u202e]/.test(sayProblem(texts, p)))
      throw new Finding(`${p.code}: its sentence holds control characters`)
  }
  return problems.some((p) => p.severity === 'refuse') ? 'refused' : problems.length > 0 ? 'flagged' : 'right'
}
