import { EXTRAPOLATED } from '../../charts/words.ts'
import type { Step } from '../../job/log-steps.ts'
import type { FigureRecord, Result } from '../../records/result.ts'
import { STEP_KINDS } from '../../test-log/steps/index.ts'
import { boundWords, decimalsFor, formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say, wordOf } from '../../texts/say.ts'
import { monthName } from '../../texts/dates.ts'
import type { Arg, KeyNeeding, Texts, WordKey } from '../../texts/messages.ts'
import { CONDITION_WORDS } from '../../job/job-words.ts'
import type { Finding } from '../../test-log/findings.ts'
import { ABSENT_WORDS } from '../../texts/absent-words.ts'
import type { Cell } from '../blocks/table.ts'

/** Words and figures that several sections share. */

/** What a test found. */
const FINDINGS: Readonly<Record<Finding, WordKey>> = {
  response: 'report.finding.response',
  'no response': 'report.finding.no-response',
  unclear: 'report.finding.unclear',
  'in limits': 'report.finding.in-limits',
  'out of limits': 'report.finding.out-of-limits',
  recorded: 'report.finding.recorded',
}

/** The reader's word for a step of the log. */
export const stepWord = (texts: Texts, step: string): string => say(texts, STEP_KINDS[step as Step].title)

/** What a test found, in the step's own words where it has some: smoke draws no answer from the engine. */
export function findingWords(texts: Texts, { step, finding }: { step: string; finding: string }): string {
  const own = STEP_KINDS[step as Step].findings
  return own && (finding === 'response' || finding === 'no response')
    ? say(texts, own[finding])
    : wordOf(texts, FINDINGS, finding)
}

/** Names of what was computed from readings, numbers taken out; {n} is the number. */
const COMPUTED: Readonly<Record<string, KeyNeeding<{ n: Arg }>>> = {
  totalTrimBank: 'report.computed.total-trim-bank',
  exactTrimBank: 'report.computed.exact-trim-bank',
  meteredAir: 'report.computed.metered-air',
  unmeteredAir: 'report.computed.unmetered-air',
  hole: 'report.computed.hole',
  effectiveArea: 'report.computed.effective-area',
  predictedTrim: 'report.computed.predicted-trim',
  manifoldKpa: 'report.computed.manifold-kpa',
  barometerKpa: 'report.computed.barometer-kpa',
  lambda: 'report.computed.lambda',
  carbonMisfit: 'report.computed.carbon-misfit',
  keyOnKpa: 'report.computed.key-on-kpa',
  idleKpa: 'report.computed.idle-kpa',
  holdKpa: 'report.computed.hold-kpa',
  holdLoss: 'report.computed.hold-loss',
  cylinderKpa: 'report.computed.cylinder-kpa',
  lowestToHighest: 'report.computed.lowest-to-highest',
  change: 'report.computed.change',
  changeTogether: 'report.computed.change-together',
  swing: 'report.computed.swing',
  swingChange: 'report.computed.swing-change',
  latency: 'report.computed.latency',
  stretches: 'report.computed.stretches',
}

/** The reader's words for a computed figure, such as `totalTrimBank1`. A name without words is shown as it is. */
export function computedWord(texts: Texts, name: string): string {
  const key = COMPUTED[name.replace(/\d+/, '')]
  return key === undefined ? name : say(texts, key, { n: name.match(/\d+/)?.[0] ?? '' })
}

/** The reader's word for a condition of the contract; any other as the log has it. */
export const conditionWord = (texts: Texts, condition: string): string =>
  wordOf(texts, CONDITION_WORDS, condition)

/** "12.34 kV" with the language's signs. */
export const quantity = (texts: Texts, value: number, how: { unit: string; decimals?: number }): string =>
  formatNumber(value, how.decimals ?? decimalsFor(how.unit), texts.language) +
  unitSign(how.unit, texts.language)

/** @source international mile of 1959: 1609.344 m exactly (NIST SP 811, B.8) */
const KM_PER_MILE = 1.609344

/** The odometer as read, with the other unit of distance in brackets: a record may be read in another country. */
export function odometerWords(texts: Texts, { value, unit }: { value: number; unit: string }): string {
  const other =
    unit === 'mi' ? { value: value * KM_PER_MILE, unit: 'km' } : { value: value / KM_PER_MILE, unit: 'mi' }
  const words = (read: { value: number; unit: string }) =>
    quantity(texts, read.value, { unit: read.unit, decimals: 0 })
  return `${words({ value, unit })} (${words(other)})`
}

/** A figure's value with its 95 % interval below it, without unit (the column names it), or why it is absent. */
export function figureCell(
  texts: Texts,
  figure: FigureRecord | { value: number; low: number; high: number; unit: string } | undefined,
): Cell {
  if (figure === undefined) return { text: '\u2013' }
  if ('absent' in figure) {
    const note = wordOf(texts, ABSENT_WORDS, figure.absent)
    if (!('at_least' in figure) || figure.at_least === undefined) return { text: '\u2013', note }
    return { text: boundWords(figure.at_least, '', texts.language), note }
  }
  const number = (value: number) => formatNumber(value, decimalsFor(figure.unit), texts.language)
  const sign = 'extrapolated_from' in figure && figure.extrapolated_from !== undefined ? EXTRAPOLATED : ''
  return { text: number(figure.value) + sign, note: `${number(figure.low)}\u2026${number(figure.high)}` }
}

/** The same in one line, for a table that has the room: "12.3 (11.9…12.8)". */
export function figureLine(texts: Texts, figure: Parameters<typeof figureCell>[1]): Cell {
  const { text, note } = figureCell(texts, figure)
  return { text: note === undefined ? text : `${text}\u00a0(${note})` }
}

/** "5 March 2026" of an ISO date or date and time. */
export function dateWords(texts: Texts, iso: string): string {
  const [year, month, day] = iso.slice(0, 10).split('-')
  return say(texts, 'report.date', { day: String(Number(day)), month: monthName(texts, month!), year: year! })
}

/** "2026-03-04 09:12" as the job writes it, its zone left out: one shop, one clock. */
export const timeWords = (iso: string): string => iso.slice(0, 16).replace('T', ' ')

/** Date that stands for the report: the job's last stated day, since no clock is read. */
export const reportDate = ({ job }: Result): string => job.closed ?? job.opened

/** Fields that are there, with their names; the rest left out. */
export const given = (
  fields: readonly (readonly [name: string, value: string | null | undefined])[],
): { name: string; value: string }[] => fields.flatMap(([name, value]) => (value ? [{ name, value }] : []))

/** "name: value", or the one of both that is there. */
export const pair = (
  texts: Texts,
  name: string | null | undefined,
  value: string | null | undefined,
): string => (name && value ? say(texts, 'list.colon', { name, value }) : name || value || '')

/** "a; b; c" with the language's sign. */
export const series = (texts: Texts, items: readonly string[]): string =>
  items.join(say(texts, 'list.semicolon'))

/** "2009 Maker Model". */
export const vehicleWords = ({ year, make, model }: Result['job']['vehicle']): string =>
  [year === null ? undefined : String(year), make, model].filter(Boolean).join(' ')

/** "2, replaces 1" of a reissue; empty for a first report. */
export const revisionWords = (texts: Texts, { revision }: Result): string =>
  revision
    ? say(texts, 'report.revision-words', { number: revision.number, replaced: revision.replaces.number })
    : ''

/** What the vehicle is told by on every page: its name and the first mark it has. */
export const vehicleMark = ({ job: { vehicle } }: Result): string =>
  [vehicleWords(vehicle), vehicle.plate ?? vehicle.unit_number ?? vehicle.vin]
    .filter(Boolean)
    .join(' \u00b7 ')
