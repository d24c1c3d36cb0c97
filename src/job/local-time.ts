import { isMoment } from './iso-time.ts'

/**
 * Times as people and recorders write them: `05.03.2026 09:02`, `3/5/2026 9:02 am`, `2026-03-05 09:02`, `9:02`.
 * A date parted by points has its day first (common practice of the languages that write it so); one parted by strokes
 * may have either first, and both readings are given where both are days.
 */

const ISO_LIKE = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/
const POINTS = /^(\d{1,2})\.(\d{1,2})\.(\d{2}|\d{4})$/
const STROKES = /^(\d{1,2})\/(\d{1,2})\/(\d{2}|\d{4})$/
/** With a year in full: of 26-03-04 nobody can tell which is the year. */
const HYPHENS = /^(\d{1,2})-(\d{1,2})-(\d{4})$/
const TIME = /^(\d{1,2})[:.h](\d{2})(?::(\d{2}))?(?:[.,]\d+)?\s*(?:([ap])\.?m\.?|uhr|h)?$/i
/** Date and time in either order, a blank, a comma or a T between. */
const DATE_FIRST = /^([\d./-]{6,10})(?:,?\s+|T)(\d{1,2}[:.h]\d{2}\b.*)$/
const TIME_FIRST = /^(\d{1,2}[:h]\d{2}(?::\d{2})?\s*(?:[ap]\.?m\.?|uhr|h)?),?\s+([\d./-]{6,10})$/i

const two = (n: number | string): string => String(n).padStart(2, '0')

/** The days a date can mean, ISO; none where it is no date. */
export function daysMeant(date: string): string[] {
  const iso = ISO_LIKE.exec(date)
  if (iso) return days([iso[1]!, iso[2]!, iso[3]!])
  const points = POINTS.exec(date)
  if (points) return days([points[3]!, points[2]!, points[1]!])
  const strokes = STROKES.exec(date) ?? HYPHENS.exec(date)
  if (!strokes) return []
  const [, first = '', second = '', year = ''] = strokes
  return [...new Set([...days([year, first, second]), ...days([year, second, first])])]
}

const days = (...dates: (readonly [string, string, string])[]): string[] =>
  dates
    .map(([y, m, d]) => `${y.length === 2 ? `20${y}` : y}-${two(m)}-${two(d)}`)
    .filter((day) => isMoment(`${day}T00:00`))

/** The time of day, `HH:MM` or `HH:MM:SS`; undefined where it is none. */
export function timeOfDay(text: string): string | undefined {
  const found = TIME.exec(text.trim())
  if (!found) return undefined
  const [, hours = '', minutes = '', seconds, half] = found
  let hour = Number(hours)
  if (half !== undefined && (hour < 1 || hour > 12)) return undefined
  if (half?.toLowerCase() === 'p' && hour < 12) hour += 12
  if (half?.toLowerCase() === 'a' && hour === 12) hour = 0
  if (hour > 23 || Number(minutes) > 59 || Number(seconds ?? 0) > 59) return undefined
  return `${two(hour)}:${minutes}${seconds === undefined ? '' : `:${seconds}`}`
}

/** The moments a text can mean, ISO without a zone; one where it is certain, none where it is no date and time. */
export function momentsMeant(text: string): string[] {
  const plain = text.trim()
  if (isMoment(plain)) return [plain]
  const [date, time] = DATE_FIRST.exec(plain)?.slice(1) ?? TIME_FIRST.exec(plain)?.slice(1).reverse() ?? []
  const at = time === undefined ? undefined : timeOfDay(time)
  return date === undefined || at === undefined ? [] : daysMeant(date).map((day) => `${day}T${at}`)
}

/** First and last day of a job, ISO, its only one, and the zone its captures state; each undefined where it is not known. */
export interface JobDays {
  from: string | undefined
  to: string | undefined
  only: string | undefined
  zone: string | undefined
}

/**
 * The moment a text means in a job: certain by itself, or because only one reading falls on the job's own days; a time of
 * day alone is certain where the job has one day. Undefined where it is no time; all readings where it stays open.
 */
export function momentInJob(
  text: string,
  { from, to, only: day, zone }: JobDays,
): string | readonly string[] | undefined {
  if (isMoment(text.trim())) return text.trim()
  const only = timeOfDay(text)
  const meant = only === undefined ? momentsMeant(text) : day === undefined ? [] : [`${day}T${only}`]
  if (meant.length === 0) return undefined
  const within = meant.filter((m) => isOn(m.slice(0, 10), { from, to }))
  const certain = meant.length === 1 ? meant : within
  return certain.length === 1 ? `${certain[0]!}${zone ?? ''}` : meant
}

const isOn = (day: string, { from, to }: Pick<JobDays, 'from' | 'to'>): boolean =>
  from !== undefined && day >= from && (to === undefined || day <= to)
