import { slips } from '../../problems/nearest.ts'
import type { Result } from '../result.ts'
import { REDACTABLE, type RedactableField } from './fields.ts'

/** A word left in a copy that looks like one that was taken out. */
export interface NearForm {
  field: RedactableField
  /** As it stands in the copy. */
  found: string
  /** The record's part it stands in, such as `tests/3/note`. */
  where: string
}

/** Fields whose words are names: one word of them alone gives them away. */
const NAMES: ReadonlySet<RedactableField> = new Set(['customer', 'technician', 'shop'])
/** Shorter names and numbers stand for too much else. */
const SHORTEST = 4
/** From this length a word is found within another as well: `Millertonwagen`, `IMG_Millerton2`. */
const WITHIN = 6
/** From these lengths one slip of the pen still gives a word away: of a name that begins with a capital, and of a number. */
const SLIPPED_NAME = 6
const SLIPPED_NUMBER = 8

/**
 * Words that people typed and that are near a word taken out: another case, accents and ß written out, blanks, hyphens
 * and line ends within it, a digit for the letter it looks like, one name of several, one slip of the pen. The exact
 * words are gone already; these may be others, so a person decides.
 *
 * @param original  whose words were taken out
 * @param copy  the record after its words were taken out
 */
export function nearForms(
  { job, review = [] }: Pick<Result, 'job' | 'review'>,
  copy: Result,
  fields: readonly RedactableField[],
): NearForm[] {
  const sought = fields.flatMap((field) =>
    REDACTABLE[field](job, review)
      .filter((each): each is string => each !== null)
      .map((words) => ({
        field,
        whole: plain(words).signs,
        names: NAMES.has(field) ? wordsIn(words).map((name) => plain(name).signs) : [],
      })),
  )
  const found = typedTexts(copy).flatMap(({ where, text }) => {
    const typed = plain(text)
    const words = wordsIn(text)
    return sought.flatMap(({ field, whole, names }) =>
      [
        ...formsOf(whole, text, typed),
        ...names.flatMap((name) => formsOf(name, text, typed)),
        ...words.filter((word) => isSlip(word, whole, names)),
      ].map((each) => ({ field, found: each, where })),
    )
  })
  return withoutParts([...new Map(found.map((f) => [`${f.field}\0${f.where}\0${f.found}`, f])).values()])
}

/** A form that is part of a longer one of the same field and place says nothing more. */
function withoutParts(forms: readonly NearForm[]): NearForm[] {
  const together = new Map<string, NearForm[]>()
  for (const form of forms) {
    const key = `${form.field}\0${form.where}`
    const others = together.get(key)
    if (others) others.push(form)
    else together.set(key, [form])
  }
  return [...together.values()].flatMap((others) =>
    others.filter(
      ({ found }) =>
        !others.some((other) => other.found.length > found.length && other.found.includes(found)),
    ),
  )
}

/** What people typed and a copy still shows: free words, names of files and columns, and problems that quote them. */
function typedTexts(copy: Result): { where: string; text: string }[] {
  const { job, tests, captures, review = [], inputs, handed_in = [], history, problems } = copy
  const { vehicle, instrument, engine } = job
  const of = (where: string, record: object) =>
    Object.entries(record).flatMap(([name, text]) =>
      typeof text === 'string' ? [{ where: `${where}/${name}`, text }] : [],
    )
  const { complaint, cause, correction, work_order } = job
  return [
    ...of('job', { complaint, cause, correction, work_order, instrument: instrument.description }),
    // The make is a name on a list, and many people bear it.
    ...of('job/vehicle', { model: vehicle.model }),
    ...of('job/instrument/calibration', instrument.calibration ?? {}),
    ...Object.keys(engine.banks ?? {}).map((text) => ({ where: 'job/engine/banks', text })),
    ...tests.flatMap(({ place, outcome, note, trace, condition, readings }, i) => [
      ...of(`tests/${i}`, { place, outcome, note, trace, condition }),
      ...readings.flatMap(({ reading, unit }, r) => of(`tests/${i}/readings/${r}`, { reading, unit })),
    ]),
    ...review.flatMap(({ by, reason, place }, i) => of(`review/${i}`, { by, reason, place })),
    ...captures.flatMap(({ file, dialect, channels }, i) => [
      { where: `captures/${i}/file`, text: file },
      ...(dialect.header ?? []).map((text) => ({ where: `captures/${i}/header`, text })),
      ...channels.flatMap(({ column }) => of(`captures/${i}/channels`, { column })),
    ]),
    ...inputs.map(({ file }, i) => ({ where: `inputs/${i}/file`, text: file })),
    ...handed_in.map(({ file }, i) => ({ where: `handed_in/${i}/file`, text: file })),
    ...(history?.visits ?? []).flatMap(({ work_order: text, output }, i) =>
      of(`history/visits/${i}`, { work_order: text, output }),
    ),
    ...problems.flatMap(({ file, text }, i) => of(`problems/${i}`, { file, text })),
  ]
}

/** Signs that are read for one another; a VIN has no I, O or Q for that reason (ISO 3779). */
const LOOKS: Readonly<Record<string, string>> = {
  '0': 'o',
  q: 'o',
  '1': 'i',
  l: 'i',
  '5': 's',
  '8': 'b',
  '2': 'z',
}

interface Plain {
  signs: string
  /** Where each sign stands in the text. */
  at: readonly number[]
}

/** Letters and digits alone, lower case, accents off, ß as ss, signs that look alike as one. */
function plain(text: string): Plain {
  const at: number[] = []
  let signs = ''
  let place = 0
  for (const sign of text) {
    const bare = sign.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace('ß', 'ss')
    for (const each of bare.match(/[\p{L}\p{N}]/gu) ?? []) {
      signs += LOOKS[each] ?? each
      for (let i = 0; i < each.length; i++) at.push(place)
    }
    place += sign.length
  }
  return { signs, at }
}

/**
 * Where a word stands in a text, blanks and signs within it or not: from the beginning of a word to the end of one, a
 * plural or genitive s not counted; a long word also within a single other one, which is then found whole.
 */
function formsOf(wanted: string, text: string, { signs, at }: Plain): string[] {
  if (wanted.length < SHORTEST) return []
  const found: string[] = []
  for (let from = signs.indexOf(wanted); from >= 0; from = signs.indexOf(wanted, from + 1)) {
    const first = at[from]!
    const last = at[from + wanted.length - 1]!
    const inside = text.slice(first, last + 1)
    const behind = /^s(?![\p{L}\p{N}])/iu.exec(text.slice(last + 1, last + 4))?.[0] ?? ''
    const end = last + 1 + behind.length
    if (isEdge(text[first - 1], text[first]) && isEdge(text[last], text[end]))
      found.push(text.slice(first, end))
    else if (wanted.length >= WITHIN && /^[\p{L}\p{M}\p{N}]+$/u.test(inside))
      found.push(wordAround(text, first, end))
  }
  return found
}

/** Whether a word can end between two signs: at the end, beside anything else, or where letters meet digits. */
function isEdge(before: string | undefined, after: string | undefined): boolean {
  const kind = (sign: string | undefined) =>
    sign === undefined ? '' : /\p{L}/u.test(sign) ? 'letter' : /\p{N}/u.test(sign) ? 'digit' : ''
  return kind(before) === '' || kind(after) === '' || kind(before) !== kind(after)
}

/** Signs of a word beside the form that are found with it at most. */
const MOST_BESIDE = 40

function wordAround(text: string, first: number, end: number): string {
  const isWord = (at: number) => /[\p{L}\p{N}]/u.test(text[at] ?? ' ')
  let [from, to] = [first, end]
  while (first - from < MOST_BESIDE && isWord(from - 1)) from--
  while (to - end < MOST_BESIDE && isWord(to)) to++
  return text.slice(from, to)
}

/** One slip of the pen away from a name, where the word is written as one, or from a number. */
function isSlip(word: string, whole: string, names: readonly string[]): boolean {
  const isName = /^\p{Lu}/u.test(word)
  const isNumber = /\p{N}/u.test(word)
  if (word.length < SLIPPED_NAME - 1 || !(isName || isNumber)) return false
  const { signs } = plain(word)
  const isNear = (wanted: string, shortest: number) =>
    wanted.length >= shortest &&
    Math.abs(wanted.length - signs.length) <= 1 &&
    signs !== wanted &&
    slips(signs, wanted) === 1
  return (
    (isName && names.some((name) => isNear(name, SLIPPED_NAME) && signs !== `${name}s`)) ||
    (isNumber && isNear(whole, SLIPPED_NUMBER))
  )
}

const wordsIn = (text: string): string[] => text.match(/[\p{L}\p{N}]+/gu) ?? []
