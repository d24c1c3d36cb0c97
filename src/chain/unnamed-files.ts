import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Inspection } from '../job/inspect-job.ts'
import { problem, type Problem } from '../problems/problem.ts'

/** Folders whose files job.yaml names one by one. */
const FOLDERS = ['captures', 'traces', 'photos'] as const
/** What systems leave in folders by themselves. */
const LEFT_BY_SYSTEMS = /^(?:\.|thumbs\.db$|desktop\.ini$)/i

/** Warns of files that lie in the folder and are not named: evidence that was forgotten would be missing without a word. */
export async function unnamedFiles({
  folder,
  files,
  job,
}: Pick<Inspection, 'folder' | 'files' | 'job'>): Promise<Problem[]> {
  if (job === undefined) return []
  const named = new Set(files.values())
  const found = await Promise.all(FOLDERS.map((name) => filesIn(folder, name)))
  return found
    .flat()
    .filter((file) => !named.has(join(folder, file)))
    .map((file) => problem('file-not-named', { file, severity: 'warn' }, { path: file }))
}

async function filesIn(folder: string, name: string): Promise<string[]> {
  try {
    const entries = await readdir(join(folder, name), { withFileTypes: true })
    return entries
      .filter((e) => e.isFile() && !LEFT_BY_SYSTEMS.test(e.name))
      .map((e) => `${name}/${e.name}`)
      .sort()
  } catch {
    return [] // a folder that is not there, or may not be listed, holds nothing to name
  }
}
