import { problem, type Problem } from '../../problems/problem.ts'
import type { JobParts } from '../parts.ts'
import { pathName } from '../schema-problems.ts'
import type { KeyPath, YamlFile } from '../yaml-document.ts'

/** A check of what the schema cannot say: the parts of a job against each other. It yields what it finds, in the order of the file. */
export type Check = (parts: JobParts, yaml: YamlFile) => Iterable<Problem>

/** Two things in job.yaml that cannot both be true; `found` as written unless given. */
export function inconsistent(
  yaml: YamlFile,
  path: KeyPath,
  { expected, found }: { expected: string; found?: string },
): Problem {
  return problem('inconsistent', yaml.valuePlace(path), {
    key: pathName(path),
    found: found ?? yaml.written(path),
    expected,
  })
}

/** A key that has to be there because of another one. */
export const missingKey = (yaml: YamlFile, path: KeyPath): Problem =>
  problem('missing-key', yaml.keyPlace(path), { key: pathName(path) })

/** Something named a second time. */
export const duplicate = (yaml: YamlFile, path: KeyPath, found: string): Problem =>
  problem('duplicate-entry', yaml.valuePlace(path), { key: pathName(path), found })

/** The values that stand more than once, each once. */
export function repeated<T>(values: readonly T[]): T[] {
  const [once, again] = [new Set<T>(), new Set<T>()]
  for (const value of values) (once.has(value) ? again : once).add(value)
  return [...again]
}
