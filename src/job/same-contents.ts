import { createHash } from 'node:crypto'
import { stat } from 'node:fs/promises'
import { problem, type Problem } from '../problems/problem.ts'
import type { JobParts } from './parts.ts'
import type { YamlFile } from './yaml-document.ts'
import { regularChunks } from '../files/regular-file.ts'

/**
 * Captures, or traces, that hold the very same bytes under two names: one recording would count as two, and a capture
 * copied from before to after the repair would compare with itself. Only files of one size are read for it.
 *
 * @param files  where each file named by the job really is
 */
export async function sameContents(
  parts: JobParts,
  files: ReadonlyMap<string, string>,
  yaml: YamlFile,
): Promise<Problem[]> {
  const problems: Problem[] = []
  for (const kind of ['captures', 'traces'] as const) {
    const listed = parts.files.filter((f) => f.kind === kind && files.has(f.file))
    const sizes = await Promise.all(listed.map(async ({ file }) => (await stat(files.get(file)!)).size))
    const seen = new Map<string, string>()
    for (const [i, { file, path }] of listed.entries()) {
      if (sizes.filter((size) => size === sizes[i]).length < 2 || sizes[i] === 0) continue
      const contents = await digestOf(files.get(file)!)
      const first = seen.get(contents)
      if (first === undefined) seen.set(contents, file)
      // One file named twice is told as that.
      else if (files.get(first) !== files.get(file))
        problems.push(problem('same-contents', yaml.valuePlace(path), { path: file, other: first }))
    }
  }
  return problems
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const chunk of regularChunks(path)) hash.update(chunk)
  return hash.digest('hex')
}
