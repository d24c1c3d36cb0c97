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
const SHORTEST_NAME = 4
const SHORTEST_NUMBER = 4

/**
 * Words that people typed and that are near a word taken out: another case, accents and ß written out, blanks and signs
 * within a number, one name of several. The exact words are gone already; these may be others, so a person decides.
 *
 * @param original  whose words were taken out
 * @param copy  the record after its words were taken out
 */
export function nearForms(
  { job, review = [] }: Pick<Result, 'job' | 'review'>,
  copy: Result,
  fields: readonly RedactableField[],
): NearForm[] {
  const texts = typedTexts(copy)
  return fields.flatMap((field) => {
    const words = REDACTABLE[field](job, review).filter((each): each is string => each !== null)
    const found = texts.flatMap(({ where, text }) =>
      words
        .flatMap((word) => [...wholeForms(word, text), ...(NAMES.has(field) ? singleNames(word, text) : [])])
        .map((each) => ({ field, found: each, where })),
    )
    return [...new Map(found.map((each) => [`${each.where}\0${each.found}`, each])).values()]
  })
}

/** What people typed and a copy still shows: free words and names of files. */
function typedTexts(copy: Result): { where: string; text: string }[] {
  const { job, tests, captures, review = [] } = copy
  return [
    { where: 'job/complaint', text: job.complaint },
    { where: 'job/cause', text: job.cause ?? '' },
    { where: 'job/correction', text: job.correction ?? '' },
    { where: 'job/work_order', text: job.work_order },
    { where: 'job/instrument', text: job.instrument.description ?? '' },
    ...tests.flatMap(({ place, outcome, note, trace }, i) =>
      Object.entries({ place, outcome, note, trace }).map(([name, text]) => ({
        where: `tests/${i}/${name}`,
        text: text ?? '',
      })),
    ),
    ...review.flatMap(({ by, reason, place }, i) =>
      Object.entries({ by, reason, place }).map(([name, text]) => ({
        where: `review/${i}/${name}`,
        text: text ?? '',
      })),
    ),
    ...captures.map(({ file }, i) => ({ where: `captures/${i}/file`, text: file })),
  ]
}

/** Letters and digits alone, lower case, accents off, ß as ss; with the place of each in the text. */
function plain(text: string): { signs: string; at: number[] } {
  const at: number[] = []
  let signs = ''
  let place = 0
  for (const sign of text) {
    const bare = sign.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace('ß', 'ss')
    for (const each of bare.match(/[\p{L}\p{N}]/gu) ?? []) {
      signs += each
      for (let i = 0; i < each.length; i++) at.push(place)
    }
    place += sign.length
  }
  return { signs, at }
}

function wholeForms(word: string, text: string): string[] {
  const wanted = plain(word).signs
  if (wanted.length < SHORTEST_NUMBER) return []
  const { signs, at } = plain(text)
  const found: string[] = []
  for (let from = signs.indexOf(wanted); from >= 0; from = signs.indexOf(wanted, from + wanted.length))
    found.push(text.slice(at[from], at[from + wanted.length - 1]! + 1))
  return found
}

function singleNames(word: string, text: string): string[] {
  const names = new Set(
    wordsOf(word)
      .map((each) => plain(each).signs)
      .filter((each) => each.length >= SHORTEST_NAME),
  )
  return wordsOf(text).filter((each) => {
    const bare = plain(each).signs
    return names.has(bare) || names.has(bare.replace(/s$/, ''))
  })
}

const wordsOf = (text: string): string[] => text.match(/[\p{L}\p{N}]+/gu) ?? []
