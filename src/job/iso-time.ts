/** Text of an ISO 8601 calendar date, as job.yaml and test-log.csv write it. */
export const ISO_DATE = /^\d{4}-\d{2}-\d{2}$/

/** Text of an ISO 8601 date and time, seconds and zone optional. */
export const ISO_TIME = /^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?(Z|[+-]\d{2}:\d{2})?$/

/** True for a day the calendar has: 2024-02-29 yes, 2026-02-30 no. Gregorian calendar, no time zone involved. */
export function isDay(date: string): boolean {
  if (!ISO_DATE.test(date)) return false
  const [year, month, day] = date.split('-').map(Number) as [number, number, number]
  return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month)
}

/** True for an ISO 8601 date and time on a day the calendar has. */
export const isMoment = (text: string): boolean => ISO_TIME.test(text) && isDay(text.slice(0, 10))

function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  if (month === 2) return leap ? 29 : 28
  return [4, 6, 9, 11].includes(month) ? 30 : 31
}

const ZONE = /(?:Z|[+-]\d{2}:\d{2})$/

/** Below 0 where the first is earlier, above where it is later; undefined where one states its zone and the other does not. */
export function compareMoments(first: string, second: string): number | undefined {
  const [a, b] = [ZONE.test(first), ZONE.test(second)]
  if (a !== b) return undefined
  const difference = Date.parse(a ? first : `${first}Z`) - Date.parse(b ? second : `${second}Z`)
  return Number.isNaN(difference) ? undefined : difference
}
