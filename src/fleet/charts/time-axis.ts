import type { Texts } from '../../texts/messages.ts'
import { periodWords } from '../words.ts'

/** Days since 1970-01-01 of an ISO date: a position on a time axis, never a clock reading. */
export const dayOf = (date: string): number =>
  Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10))) / 86_400_000

/** A span of days with marks at starts of months, quarters or years, as many as can be read. */
export interface TimeAxis {
  low: number
  high: number
  marks: readonly { day: number; words: string }[]
}

const MOST_MARKS = 12
const STEPS_MONTHS = [1, 3, 6, 12, 24, 60, 120]

/** An axis over these dates; they need not be sorted. @param dates ISO, at least one */
export function timeAxis(texts: Texts, dates: readonly string[]): TimeAxis {
  const sorted = [...dates].sort()
  const from = monthIndex(sorted[0]!)
  const to = monthIndex(sorted.at(-1)!) + 1
  const step = STEPS_MONTHS.find((months) => (to - from) / months <= MOST_MARKS) ?? STEPS_MONTHS.at(-1)!
  const first = Math.floor(from / step) * step
  const last = Math.ceil(to / step) * step
  const marks = Array.from({ length: (last - first) / step + 1 }, (_, i) => first + i * step).map(
    (month) => ({
      day: dayOf(`${isoMonth(month)}-01`),
      words: periodWords(texts, isoMonth(month).slice(0, step >= 12 ? 4 : 7)),
    }),
  )
  return { low: marks[0]!.day, high: marks.at(-1)!.day, marks }
}

const monthIndex = (date: string): number => Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1
const isoMonth = (index: number): string =>
  `${String(Math.floor(index / 12)).padStart(4, '0')}-${String((index % 12) + 1).padStart(2, '0')}`

/** Months, or where there are more than `most`, quarters or years, that a bar each can be drawn of; of all three a text sorts as the time does. */
export function periodOf(months: readonly string[], most: number): (month: string) => string {
  const known = months.filter((month) => month !== '')
  const quarter = (month: string) => `${month.slice(0, 4)} Q${Math.ceil(Number(month.slice(5, 7)) / 3)}`
  const count = (of: (month: string) => string) => new Set(known.map(of)).size
  if (count((month) => month) <= most) return (month) => month
  return count(quarter) <= most ? quarter : (month) => month.slice(0, 4)
}
