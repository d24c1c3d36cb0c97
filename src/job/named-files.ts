import type { Problem } from '../problems/problem.ts'
import { duplicate } from './checks/check.ts'
import { locateFile } from './locate-files.ts'
import type { JobParts } from './parts.ts'
import type { YamlFile } from './yaml-document.ts'

/** Every file job.yaml names: where it really is, and what is wrong. */
export interface NamedFiles {
  files: Map<string, string>
  problems: Problem[]
}

/**
 * Finds the files of job.yaml. A file named twice in one list is refused, by whatever name it goes: its evidence
 * would count twice. A capture may be a trace as well, where the recorder took the speed beside the ignition.
 *
 * @param folder  real path of the job folder
 */
export async function namedFiles(folder: string, parts: JobParts, yaml: YamlFile): Promise<NamedFiles> {
  const files = new Map<string, string>()
  const problems: Problem[] = []
  const listed = new Set<string>()
  for (const { kind, path, file } of parts.files) {
    const located = await locateFile(folder, file, yaml.valuePlace(path))
    if (!located.ok) {
      problems.push(located.problem)
      continue
    }
    const named = `${kind} ${located.path}`
    if (listed.has(named)) problems.push(duplicate(yaml, path, yaml.written(path)))
    listed.add(named)
    files.set(file, located.path)
  }
  return { files, problems }
}
