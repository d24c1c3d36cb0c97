import type { z } from 'zod'
import { near } from '../problems/nearest.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'
import { knownKeys } from './known-keys.ts'
import type { KeyPath, YamlFile } from './yaml-document.ts'

type Issue = z.core.$ZodIssue

/** A key path as it is named to a reader. */
export const pathName = (path: KeyPath): string => path.map(String).join('.')

/**
 * What a schema finds wrong with a YAML file, one problem a mistake, each with its place, key and nearest known key.
 * The schema's messages are keys of the texts that say what is expected.
 */
export function* schemaProblems(schema: z.ZodType, yaml: YamlFile): Generator<Problem> {
  const read = schema.safeParse(yaml.data)
  for (const issue of read.error?.issues ?? []) yield* ofIssue(issue, { schema, yaml, above: [] })
}

interface Context {
  schema: z.ZodType
  yaml: YamlFile
  above: KeyPath
}

function* ofIssue(issue: Issue, context: Context): Generator<Problem> {
  const path = [...context.above, ...issue.path]
  if (issue.code === 'unrecognized_keys') yield* unknownKeys(issue.keys, path, context)
  else if (issue.code === 'invalid_value' && typeof valueAt(context.yaml.data, path) === 'string')
    yield unknownWord(path, issue.values.map(String), context.yaml)
  else if (issue.code === 'invalid_union') yield* ofUnion(issue, path, context)
  else yield missingOrWrong(path, expectedBy(issue), context.yaml)
}

function* unknownKeys(keys: readonly string[], path: KeyPath, { schema, yaml }: Context): Generator<Problem> {
  const known = knownKeys(schema, path)
  for (const key of keys) {
    const place = yaml.keyPlace([...path, key])
    yield problem('unknown-key', place, { key: excerpt(pathName([...path, key])), nearest: near(key, known) })
  }
}

/**
 * A union says one clear thing: where the value has the form of one branch and errs inside it, that branch's own
 * mistakes; else what the union expects.
 */
function* ofUnion(
  issue: Extract<Issue, { code: 'invalid_union' }>,
  path: KeyPath,
  context: Context,
): Generator<Problem> {
  const meant = branchMeant(issue.errors as Issue[][], valueAt(context.yaml.data, path))
  if (!meant) yield missingOrWrong(path, issue.message, context.yaml)
  else for (const inner of meant) yield* ofIssue(inner, { ...context, above: path })
}

/** The one branch whose form the value has: a list for a list, a mapping with one of the branch's keys for a mapping. */
function branchMeant(branches: readonly Issue[][], value: unknown): Issue[] | undefined {
  const isMapping = typeof value === 'object' && value !== null && !Array.isArray(value)
  const fitting = branches.filter((issues) =>
    isMapping ? usesAKey(issues, value) : issues.every((i) => i.path.length > 0),
  )
  return fitting.length === 1 ? fitting[0] : undefined
}

/** True where at least one key of the mapping is known to the branch. */
function usesAKey(issues: readonly Issue[], value: object): boolean {
  const strange = issues.flatMap((i) => (i.code === 'unrecognized_keys' && i.path.length === 0 ? i.keys : []))
  return (
    issues.every((i) => i.path.length > 0 || i.code === 'unrecognized_keys') &&
    Object.keys(value).length > strange.length
  )
}

const expectedBy = (issue: Issue): string =>
  issue.code === 'invalid_value' ? issue.values.map(String).join(' | ') : issue.message

/** A word of a closed list, misspelt or of another list. */
function unknownWord(path: KeyPath, words: readonly string[], yaml: YamlFile): Problem {
  const found = yaml.written(path)
  return problem('unknown-word', yaml.valuePlace(path), {
    key: pathName(path),
    found,
    nearest: near(found, words),
    known: words.join(', '),
  })
}

function missingOrWrong(path: KeyPath, expected: string, yaml: YamlFile): Problem {
  const place = yaml.valuePlace(path)
  const key = path.length > 0 ? pathName(path) : place.file
  if (valueAt(yaml.data, path) === undefined && path.length > 0)
    return problem('missing-key', yaml.keyPlace(path), { key })
  return problem('wrong-value', place, { key, found: yaml.written(path), expected })
}

/** The plain value at a path; undefined where there is none. */
export function valueAt(data: unknown, path: KeyPath): unknown {
  return path.reduce<unknown>(
    (value, name) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, name)
        ? (value as Record<PropertyKey, unknown>)[name]
        : undefined,
    data,
  )
}
