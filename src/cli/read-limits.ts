import { parse } from 'yaml'
import { z } from 'zod'
import { loadLimits, withValues } from '../limits/limits.ts'
import {
  loadReadingLimits,
  readingLimits,
  type OwnReadingLimits,
  type ReadingLimits,
} from '../limits/reading-limits.ts'
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
  return readAs(path, (text) => {
    const values = z.record(z.string(), z.number()).parse(parse(text))
    const ofReading = loadReadingLimits()
    withValues({ ...loadLimits(), ...ofReading }, values)
    const part = (reading: boolean) =>
      Object.fromEntries(Object.entries(values).filter(([key]) => (ofReading[key] !== undefined) === reading))
    const [limits, reading] = [part(false), part(true)]
    readingLimits(reading)
    return { ...(isEmpty(limits) ? {} : { limits }), ...(isEmpty(reading) ? {} : { reading }) }
  })
}

/** How much a call reads at most. @throws UsageError */
export const readingGiven = (path: string | undefined): ReadingLimits =>
  readingLimits(path === undefined ? {} : readLimits(path).reading)

const isEmpty = (values: object): boolean => Object.keys(values).length === 0

/** Reads a file named on the command line. @throws UsageError naming the file and what is wrong with it */
export function readAs<T>(path: string, read: (text: string) => T): T {
  try {
    return read(readRegularText(path))
  } catch (cause) {
    const why =
      cause instanceof z.ZodError
        ? cause.issues.map((i) => `${i.path.join('.')}: ${i.message}`).join('; ')
        : (cause as Error).message
    throw new UsageError(`${path}: ${why}`)
  }
}
