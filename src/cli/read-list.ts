import { z } from 'zod'
import { withEarlier, type SurveyedJob } from '../batch/survey.ts'
import { UsageError } from './usage-error.ts'
import { readRegularText } from '../files/regular-file.ts'

/** One line of `burnline list --json`. */
export const listedSchema = z.object({
  folder: z.string(),
  work_order: z.string().nullable(),
  bytes: z.number(),
  sha256: z.string(),
})

/**
 * Jobs from a file written by `burnline list --json`: sizes as listed, so that every machine finds the same parts.
 *
 * @throws UsageError for a file that is not there or not of this kind, with the line
 */
export function readList(path: string): SurveyedJob[] {
  const lines = readLines(path)
    .map((line, i) => ({ line, number: i + 1 }))
    .filter(({ line }) => line.trim() !== '')
  return withEarlier(
    lines.map(({ line, number }) => {
      const read = listedSchema.safeParse(parsed(line))
      if (!read.success) throw new UsageError(`${path}:${number}: not a line of \`burnline list --json\``)
      const { folder, work_order, bytes } = read.data
      return { folder, bytes, workOrder: work_order ?? undefined }
    }),
  )
}

function readLines(path: string): string[] {
  try {
    return readRegularText(path).split('\n')
  } catch (cause) {
    throw new UsageError(`--list: cannot read “${path}”`, { cause })
  }
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line)
  } catch {
    return undefined // the schema refuses it, and the line is named
  }
}
