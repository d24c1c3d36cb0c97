import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { decidedFigures, type DecidedFigure } from './pages/decided-figures.ts'
import { causesFound, codesWords, heldAgainst } from './pages/record-words.ts'
import { dateWords, pair, series, vehicleMark } from './pages/words.ts'

/** Most characters a claim form takes, line ends counted twice since some forms write them as two. */
export const MOST_CLAIM_SIGNS = 1000

/** Most letters words typed by somebody else keep, tried one after the other until the whole is short enough. */
const FREE_WORDS = [Infinity, 240, 160, 100, 60, 30, 12] as const
/** Most things of a kind that are told where the claim text has to be short. */
const FEW = 2

/**
 * Complaint, cause, correction and proof as plain text to paste into a form. It says only what is on record, and where
 * the record shows nothing, that. What can be left out goes first (vehicle, further figures, codes), then long words of
 * others are cut; sentences of ours are not.
 */
export function claimText(result: Result, texts: Texts): string {
  let text = ''
  for (const most of FREE_WORDS) {
    const lines = claimLines(withShortWords(result, most), texts)
    for (let left = lines.further.length; left >= 0; left--) {
      text = written(lines, left)
      if (signs(text) <= MOST_CLAIM_SIGNS) return text
    }
  }
  // Only a shop's own sentences or names of causes can be as long as that.
  return `${text.slice(0, MOST_CLAIM_SIGNS - LINE_ENDS)}\u2026`
}

/** The text's own line ends once more, and the sign that it was cut. */
const LINE_ENDS = 6

const signs = (text: string): number => text.replaceAll('\n', '\r\n').length

/** The lines of the form, and what may be added to them, dearest first: the line it belongs to and its words. */
interface ClaimLines {
  lines: readonly (readonly [title: string, words: string])[]
  further: readonly (readonly [line: number, words: string])[]
}

const [CAUSE, CORRECTION, PROOF, VEHICLE] = [1, 2, 3, 4] as const

function written({ lines, further }: ClaimLines, taken: number): string {
  const added = further.slice(0, taken)
  return lines
    .map(([title, words], line): [string, string] => [
      title,
      [words, ...added.filter(([of]) => of === line).map(([, more]) => more)].filter(Boolean).join(' '),
    ])
    .filter(([, words]) => words !== '')
    .map(([title, words]) => `${title}: ${words}\n`)
    .join('')
}

function claimLines(result: Result, texts: Texts): ClaimLines {
  const figures = decidedFigures(result, texts).map((figure) => figureWords(texts, figure))
  const repairs = repairsDone(result, texts)
  const correction = heldAgainst({ result, texts }, 'correction', true)
  const { complaint, work_order: workOrder } = result.job
  const codes = codesWords({ result, texts })
  return {
    lines: [
      [say(texts, 'report.ccc.complaint'), say(texts, 'report.customer.quoted', { words: complaint })],
      [say(texts, 'report.claim.cause'), `${causeWords(result, texts)}.`],
      [
        say(texts, 'report.ccc.correction'),
        correction === null
          ? repairs.slice(0, FEW).join(' ') || `${say(texts, 'report.not-given')}.`
          : `${correction}.`,
      ],
      [say(texts, 'report.ccc.proof'), [proofWords(result, texts), ...figures.slice(0, 1)].join(' ')],
      [say(texts, 'report.work-order'), ''],
    ],
    further: [
      ...repairs.slice(correction === null ? FEW : 0).map((words) => [CORRECTION, words] as const),
      ...figures.slice(1, 1 + FEW).map((words) => [PROOF, words] as const),
      ...(codes === ''
        ? []
        : [[CAUSE, `${pair(texts, say(texts, 'report.record.codes'), codes)}.`] as const]),
      [VEHICLE, [workOrder, vehicleMark(result)].filter(Boolean).join(', ')],
    ],
  }
}

function causeWords(result: Result, texts: Texts): string {
  const found = causesFound({ result, texts }) || say(texts, 'report.claim.not-shown')
  return series(texts, [
    heldAgainst({ result, texts }, 'cause', true) ?? say(texts, 'report.claim.unstated'),
    say(texts, 'report.claim.found', { cause: found }),
  ])
}

const repairsDone = (result: Result, texts: Texts): string[] =>
  result.tests
    .filter(({ step }) => step === 'repair')
    .map(({ at, place, note }) =>
      say(texts, 'report.claim.repair', { date: dateWords(texts, at), work: pair(texts, place, note) }),
    )

function proofWords({ conclusion: { repair } }: Result, texts: Texts): string {
  const why = repair.reason.text
  return repair.verdict === 'repair confirmed' ? why : say(texts, 'report.claim.not-shown-why', { why })
}

function figureWords(texts: Texts, { name, asFound, after, limit }: DecidedFigure): string {
  const read =
    after === undefined
      ? say(texts, 'report.claim.figure', { name, figure: asFound })
      : say(texts, 'report.claim.figure-after', { name, figure: asFound, after })
  return `${limit === '\u2013' ? read : series(texts, [read, say(texts, 'report.claim.limit', { limit })])}.`
}

/** The same record with the words of others on one line each and at most so long, and of causes the first few. */
function withShortWords(result: Result, most: number): Result {
  const short = (words: string) => shortened(words, most)
  const orNull = (words: string | null) => (words === null ? null : short(words))
  const { job, tests, conclusion } = result
  const { vehicle } = job
  return {
    ...result,
    job: {
      ...job,
      work_order: short(job.work_order),
      complaint: short(job.complaint),
      vehicle: {
        ...vehicle,
        make: orNull(vehicle.make),
        model: orNull(vehicle.model),
        plate: orNull(vehicle.plate),
        unit_number: orNull(vehicle.unit_number),
      },
    },
    tests: tests.map((test) => ({
      ...test,
      place: orNull(test.place),
      note: orNull(test.note),
      readings: test.readings.map((reading) => ({ ...reading, reading: short(reading.reading) })),
    })),
    conclusion: {
      ...conclusion,
      stated: conclusion.stated.map((each) => ({ ...each, words: short(each.words) })),
      faults: conclusion.faults
        .slice(0, most === Infinity ? undefined : FEW)
        .map((fault) => ({
          ...fault,
          place: orNull(fault.place),
          others: fault.others.map((other) => ({ ...other, place: orNull(other.place) })),
        })),
      findings: conclusion.findings.map((finding) => ({
        ...finding,
        where: { ...finding.where, place: orNull(finding.where.place) },
      })),
    },
  }
}

/** On one line, and cut after a whole word where it is longer than `most`. */
function shortened(words: string, most: number): string {
  const line = words.replaceAll(/\s+/g, ' ').trim()
  if (line.length <= most) return line
  const cut = line.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')
  const end = cut.lastIndexOf(' ')
  return `${(end > most / 2 ? cut.slice(0, end) : cut).trimEnd()}\u2026`
}
