import { cylindersCsv } from '../../records/cylinders-csv.ts'
import { resultJson } from '../../records/result-json.ts'
import type { Result } from '../../records/result.ts'
import { testsCsv } from '../../records/tests-csv.ts'

/** The record files of a result by name; the rows of events, which the result does not hold, come as text. */
export const recordFiles = (result: Result, events: string): Map<string, string> =>
  new Map([
    ['result.json', resultJson(result)],
    ['cylinders.csv', cylindersCsv(result)],
    ['events.csv', events],
    ['tests.csv', testsCsv(result)],
  ])
