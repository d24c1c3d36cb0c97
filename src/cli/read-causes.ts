import { z } from 'zod'
import { pathName } from '../job/schema-problems.ts'
import { readYaml, type YamlFile } from '../job/yaml-document.ts'
import { loadCauses } from '../limits/load-causes.ts'
import { near } from '../problems/nearest.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { causesInForce, FIGURES, SECTIONS } from '../verdicts/causes/override.ts'
import { parseCauses } from '../verdicts/causes/schema.ts'
import { readAs } from './read-limits.ts'

/**
 * Reads the file named by --causes: entries of the shipped table that a shop weighs its own way.
 *
 * @throws UsageError naming the file and each line that is wrong: a section or an entry the table lacks, a figure outside
 *   its bounds, a name of no cause or family
 */
export function readCauses(path: string): Readonly<Record<string, unknown>> {
  return readAs({ path, option: 'causes' }, (text) => {
    const yaml = readYaml(path, text)
    const problems = [...yaml.problems, ...strange(yaml)]
    if (problems.length > 0) throw new JobError(problems)
    const own = (yaml.data ?? {}) as Readonly<Record<string, unknown>>
    try {
      causesInForce({ shipped: loadCauses().shipped, overrides: own })
    } catch (cause) {
      if (cause instanceof z.ZodError) throw new JobError(cause.issues.map((issue) => misfit(yaml, issue)))
      throw cause
    }
    return own
  })
}

/** What the file holds that the shipped table has no place for. */
function strange(yaml: YamlFile): Problem[] {
  const shipped = parseCauses(loadCauses().shipped)
  const isMapping = (value: unknown): value is Record<string, unknown> =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
  const noMapping = (path: string[]) =>
    problem('wrong-value', yaml.valuePlace(path), {
      key: pathName(path) || 'causes',
      found: yaml.written(path),
      expected: 'phrase.mapping',
    })
  const unknown = (path: string[], known: readonly string[]) =>
    problem('unknown-key', yaml.keyPlace(path), {
      key: pathName(path),
      nearest: near(path.at(-1)!, known) ?? '',
    })
  const data = yaml.data ?? {}
  if (!isMapping(data)) return [noMapping([])]
  return Object.entries(data).flatMap(([section, entries]): Problem[] => {
    const known = SECTIONS.find((name) => name === section)
    if (known === undefined)
      return (FIGURES as readonly string[]).includes(section)
        ? []
        : [unknown([section], [...FIGURES, ...SECTIONS])]
    if (entries !== undefined && !isMapping(entries)) return [noMapping([section])]
    return Object.keys(entries ?? {})
      .filter((entry) => !Object.hasOwn(shipped[known], entry))
      .map((entry) => unknown([section, entry], Object.keys(shipped[known])))
  })
}

const misfit = (yaml: YamlFile, { path, message }: z.core.$ZodIssue): Problem =>
  problem('wrong-value', yaml.valuePlace(path), {
    key: pathName(path),
    found: yaml.written(path),
    expected: message,
  })
