import { z } from 'zod'
import { loadLimits } from '../limits/limits.ts'
import {
  loadReadingLimits,
  readingLimits,
  type OwnReadingLimits,
  type ReadingLimits,
} from '../limits/reading-limits.ts'
import type { Place } from '../job/place.ts'
import { readYaml, type YamlFile } from '../job/yaml-document.ts'
import { near } from '../problems/nearest.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { refusedFile } from './refused-file.ts'
import { UsageError } from './usage-error.ts'
import { readRegularText } from '../files/regular-file.ts'

/** For commands that read and do not judge. */
export const LIMITS_OPTION = {
  limits: {
    type: 'string',
    describe: 'YAML file of limits (key: value); those of templates/reading-limits.yaml are used',
  },
} as const

/** Limits named in a file, parted by what they are for; absent where none is named. */
export interface LimitsGiven {
  limits?: Readonly<Record<string, number>>
  reading?: OwnReadingLimits
}

/** Reads the file named by --limits: limits of judging and of reading, one file for all commands. @throws UsageError */
export function readLimits(path: string): LimitsGiven {
  return readAs({ path, option: 'limits' }, (text) => {
    const ofReading = loadReadingLimits()
    const values = valuesIn(readYaml(path, text), Object.keys({ ...loadLimits(), ...ofReading }))
    const part = (reading: boolean) =>
      Object.fromEntries(Object.entries(values).filter(([key]) => Object.hasOwn(ofReading, key) === reading))
    const [limits, reading] = [part(false), part(true)]
    readingLimits(reading)
    return { ...(isEmpty(limits) ? {} : { limits }), ...(isEmpty(reading) ? {} : { reading }) }
  })
}

/** How much a call reads at most. @throws UsageError */
export const readingGiven = (path: string | undefined): ReadingLimits =>
  readingLimits(path === undefined ? {} : readLimits(path).reading)

/** @throws JobError with every key that is no limit, and every value that is no number, each at its line */
function valuesIn(yaml: YamlFile, keys: readonly string[]): Readonly<Record<string, number>> {
  const wrong = (place: Place, key: string): Problem =>
    problem('wrong-value', place, { key, found: yaml.written([]), expected: 'phrase.mapping' })
  const data = yaml.data ?? {}
  if (typeof data !== 'object' || Array.isArray(data))
    throw new JobError([wrong(yaml.valuePlace([]), 'limits')])
  const problems = Object.entries(data).flatMap(([key, value]: [string, unknown]) =>
    !keys.includes(key)
      ? [problem('unknown-key', yaml.keyPlace([key]), { key, nearest: near(key, keys) ?? '' })]
      : typeof value !== 'number' || !Number.isFinite(value)
        ? [
            problem('wrong-value', yaml.valuePlace([key]), {
              key,
              found: yaml.written([key]),
              expected: 'phrase.number',
            }),
          ]
        : [],
  )
  const all = [...yaml.problems, ...problems]
  if (all.length > 0) throw new JobError(all)
  return data as Readonly<Record<string, number>>
}

const isEmpty = (values: object): boolean => Object.keys(values).length === 0

/** Reads a file named on the command line. @throws UsageError naming the file and what is wrong with it */
export function readAs<T>({ path, option }: { path: string; option: string }, read: (text: string) => T): T {
  try {
    return read(readRegularText(path))
  } catch (cause) {
    if (cause instanceof JobError) throw refusedFile(option, cause)
    const why =
      cause instanceof z.ZodError
        ? cause.issues.map((i) => `${i.path.join('.')}: ${i.message}`).join('; ')
        : (cause as Error).message
    throw new UsageError(`--${option}: ${path}: ${why}`)
  }
}
