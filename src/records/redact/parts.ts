import type { Result } from '../result.ts'

/** A part of a record that is shown or withheld whole. */
export interface RecordPart {
  /** Where it stands, such as `job/vehicle/vin` or `cylinders/3`. */ path: string
  value: unknown
}

/**
 * A record cut into parts, in its own order: each entry of a list, each field of the job and of its vehicle, and
 * everything else by its top-level key. That a copy is one is no part of its original.
 */
export const partsOfRecord = (result: Result): RecordPart[] =>
  Object.entries(result)
    .filter(([key]) => key !== 'redacted')
    .flatMap(([key, value]) => {
      if (key !== 'job')
        return Array.isArray(value)
          ? value.map((entry: unknown, i) => ({ path: `${key}/${i}`, value: entry }))
          : [{ path: key, value }]
      const { vehicle, ...job } = value as Result['job']
      return [...fields('job', job), ...fields('job/vehicle', vehicle)]
    })

const fields = (path: string, record: object): RecordPart[] =>
  Object.entries(record).map(([key, value]) => ({ path: `${path}/${key}`, value: value as unknown }))
