import { existsSync, realpathSync } from 'node:fs'
import { join } from 'node:path'
import { JobError, problem } from '../problems/problem.ts'
import type { Standing } from '../records/parts/revision.ts'
import type { Hold } from './history.ts'
import { earlierResultSchema } from '../records/result.ts'
import { sha256 } from '../maths/sha256.ts'
import { readJsonText, RECORD_BOUNDS } from '../files/bounded-json.ts'

const RECORD = 'result.json'

/** Where the output of a work order lies: `place` itself where it is an output, else the folder of that name in it. */
const outputOf = (place: string, workOrder: string): string =>
  existsSync(join(place, RECORD)) ? place : join(place, workOrder)

/**
 * The report of a work order that is to be replaced, as it stands.
 *
 * @param place  an output, or a folder of outputs
 * @throws JobError `replaced-report` where none of that work order stands there
 */
export function replacedReport(place: string, workOrder: string): Standing {
  const path = join(outputOf(place, workOrder), RECORD)
  if (!existsSync(path)) throw refused(path, workOrder, 'none')
  const text = textOf(path)
  if (text === undefined) throw refused(path, workOrder, 'not-a-result')
  const result = parsed(text)
  if (!result) throw refused(path, workOrder, 'not-a-result')
  if (result.job.work_order !== workOrder) throw refused(path, workOrder, 'none')
  return { result, sha256: sha256(text) }
}

/**
 * The same, where it holds: what a reissue says of it must not come from whoever changed it since.
 *
 * @param holds  how an output stands; taken for whole where it is left out
 * @throws JobError as above
 */
export async function replacedAsItHolds(
  place: string,
  workOrder: string,
  holds: (output: { folder: string }) => Promise<Hold> = () => Promise.resolve('holds'),
): Promise<Standing> {
  const standing = replacedReport(place, workOrder)
  const folder = outputOf(place, workOrder)
  const hold = await holds({ folder })
  if (hold === 'altered') throw refused(folder, workOrder, 'altered')
  return { ...standing, notSigned: hold === 'not signed' }
}

function textOf(path: string): string | undefined {
  try {
    return readJsonText(path, RECORD_BOUNDS)
  } catch {
    return undefined // cannot be read: the caller says so
  }
}

function parsed(text: string): Standing['result'] | undefined {
  try {
    return earlierResultSchema.safeParse(JSON.parse(text)).data
  } catch {
    return undefined // no JSON: the caller says so
  }
}

const refused = (path: string, workOrder: string, why: string) =>
  new JobError([problem('replaced-report', { file: 'job.yaml' }, { path, workOrder, why })])

/** A reissue never takes the place of the report it replaces: that one is evidence of what was said before. */
export function keepReplaced(place: string, workOrder: string, output: string): void {
  const old = outputOf(place, workOrder)
  if (existsSync(old) && existsSync(output) && realpathSync(old) === realpathSync(output))
    throw refused(old, workOrder, 'in-the-way')
}
