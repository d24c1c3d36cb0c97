import { withoutUmlauts, wordsOf } from '../outcome-words.ts'
import { onePlace } from './one-place.ts'
import { JOINING, PLACE_WORDS } from './vocabulary.ts'

/** A place of the log taken apart. */
export interface PlaceWords {
  /** What it names, in the English words of templates/causes.yaml; plurals as one, without numbers. */
  words: readonly string[]
  /** Cylinders it names. */
  cylinders: readonly number[]
  /** Bank it names, as written. */
  bank: string | undefined
}

const MOST_CYLINDERS = 16
const PHRASES = Object.entries(PLACE_WORDS).map(([phrase, means]) => ({
  parts: phrase.split(' '),
  means: means.split(' '),
}))
const LONGEST = Math.max(...PHRASES.map(({ parts }) => parts.length))
const BY_PHRASE = new Map(PHRASES.map(({ parts, means }) => [parts.join(' '), means]))

/** Taken apart once for every place: a log names the same few over and over. */
const memo = new Map<string, PlaceWords>()
const MOST_KEPT = 20_000

/** Reads a place in the technician's words, shorthand and four languages alike. */
export function readPlaceWords(place: string): PlaceWords {
  const known = memo.get(place)
  if (known) return known
  const read = takeApart(place)
  if (memo.size >= MOST_KEPT) memo.clear()
  memo.set(place, read)
  return read
}

function takeApart(place: string): PlaceWords {
  const tokens = translated(tokensOf(place))
  const { bank, rest } = withoutBank(tokens)
  const cylinders = bank !== undefined && !rest.includes('cylinder') ? [] : cylindersOf(rest)
  const words = rest.filter((w) => !isCylinder(w) && w !== 'number').map(singular)
  const own = rest.some((w, i) => OWN_PARTS.has(w) && isNumber(rest[i + 1]))
  return { words: [...new Set(own ? [...words, 'cylinder'] : words)], cylinders, bank }
}

/** Words, with a number that is written onto its word parted from it ("cyl2", "B2"), and joining words left out. */
function tokensOf(place: string): string[] {
  const spelt = place
    .replaceAll('#', ' cylinder ')
    .replaceAll(/n\u00b0|n\u00ba/gi, ' number ')
    .replaceAll(/\bIM\b/g, ' intake manifold ')
  const cut = new Set([...spelt.matchAll(CUT_SHORT)].flatMap(([, word]) => wordsOf(word!)))
  return withoutCounts(wordsOf(spelt))
    .map((word) => known(word, cut.has(word)))
    .flatMap((word) => {
      const [, letters, digits] = /^([a-z]+)(\d{1,2})$/.exec(word) ?? []
      if (letters === undefined || digits === undefined || word === 'o2' || word === 'co2') return [word]
      return letters === 'b' ? ['bank', digits] : [letters, digits]
    })
    .filter((word) => !JOINING.has(word))
}

/** A word that a full stop cuts short: "coll.", "Drosselkl.". */
const CUT_SHORT = /(\p{L}{3,})\./gu

/** Words the vocabulary has by themselves, in order. */
const SINGLE = [...BY_PHRASE.keys()].filter((phrase) => !phrase.includes(' ')).sort()

/**
 * The word as the vocabulary has it: with its umlauts in two letters, or cut short where all words it can begin mean
 * one thing; else as it is.
 */
function known(word: string, isCut: boolean): string {
  if (BY_PHRASE.has(word)) return word
  const plain = withoutUmlauts(word)
  if (BY_PHRASE.has(plain) || compound(plain).length > 1) return plain
  if (!isCut) return word
  const whole = SINGLE.filter((single) => single.startsWith(word))
  return new Set(whole.map((w) => BY_PHRASE.get(w)!.join(' '))).size === 1 ? whole[0]! : word
}

function translated(tokens: readonly string[]): string[] {
  const out: string[] = []
  for (let at = 0; at < tokens.length;) {
    const length = longestFrom(tokens, at)
    if (length === 0) {
      out.push(...compound(tokens[at]!))
      at++
    } else {
      out.push(...BY_PHRASE.get(tokens.slice(at, at + length).join(' '))!)
      at += length
    }
  }
  return out
}

function longestFrom(tokens: readonly string[], at: number): number {
  for (let length = Math.min(LONGEST, tokens.length - at); length > 0; length--)
    if (BY_PHRASE.has(tokens.slice(at, at + length).join(' '))) return length
  return 0
}

const LEAST_PART = 4
/** German writes words together ("Ansaugkrümmerdichtung"): two known ones, with or without a joining sound. */
function compound(word: string): readonly string[] {
  for (let cut = word.length - LEAST_PART; cut >= LEAST_PART; cut--) {
    const [head, tail] = [word.slice(0, cut), word.slice(cut)]
    const first = BY_PHRASE.get(head) ?? BY_PHRASE.get(head.replace(JOINING_SOUND, '')) ?? several(head)
    const second = BY_PHRASE.get(tail)
    if (first && second) return [...first, ...second]
  }
  return [word]
}

const JOINING_SOUND = /(s|n|en|ungs)$/
/** A head that is itself written together. */
function several(head: string): readonly string[] | undefined {
  const parts = compound(head.replace(JOINING_SOUND, ''))
  return parts.length > 1 ? parts : undefined
}

/** Words of plain English lose the s of their plural. */
const singular = (word: string): string =>
  word.length > 3 && word.endsWith('s') && !word.endsWith('ss') && word !== 'bellows'
    ? word.slice(0, -1)
    : word

function withoutBank(tokens: readonly string[]): { bank: string | undefined; rest: string[] } {
  const at = tokens.indexOf('bank')
  const name = at < 0 ? undefined : tokens[at + 1]
  if (name === undefined) return { bank: undefined, rest: tokens.filter((t) => t !== 'bank') }
  return { bank: name, rest: tokens.filter((_, i) => i !== at && i !== at + 1) }
}

const isNumber = (token: string | undefined): token is string => /^\d{1,2}$/.test(token ?? '')
const isCylinder = (token: string): boolean =>
  isNumber(token) && Number(token) >= 1 && Number(token) <= MOST_CYLINDERS

/** Every number of a cylinder; "and", "+", "to" part them. */
const cylindersOf = (tokens: readonly string[]): number[] => [
  ...new Set(tokens.filter(isCylinder).map(Number)),
]

const ALL: ReadonlySet<string> = new Set(['all', 'alle', 'tous', 'toutes', 'todos', 'todas'])
/** So many words on, the counted thing is looked for ("5 vac nipples"). */
const COUNTED_WITHIN = 2

/** Words without a number that counts ("all 5 nipples", "2 hoses"): at the start or after "all", before a plural. */
const withoutCounts = (words: readonly string[]): string[] =>
  words.filter(
    (word, i) =>
      !(
        isNumber(word) &&
        (i === 0 || ALL.has(words[i - 1]!)) &&
        words.slice(i + 1, i + 1 + COUNTED_WITHIN).some((next) => singular(next) !== next)
      ),
  )

/** Parts every cylinder has one of: the number behind is the cylinder's. */
const OWN_PARTS: ReadonlySet<string> = new Set(['coil', 'lead', 'plug', 'injector', 'runner', 'joint'])

/** The words of a place, as readPlaceWords gives them. */
export const placeWordsOf = (place: string): readonly string[] => readPlaceWords(place).words

/** The first cylinder a place names: of two that were changed over, the one the part came from. */
export const firstCylinderIn = (place: string): number | undefined => readPlaceWords(place).cylinders[0]

/** The bank a place names. */
export const bankIn = (place: string): string | undefined => readPlaceWords(place).bank

/** The same for every way of writing the same place: its words in any order, its cylinders and bank. */
export function placeKey(place: string): string {
  const { words, cylinders, bank } = readPlaceWords(place)
  const named = onePlace(
    words.filter((w) => w !== 'cylinder'),
    cylinders.length > 0,
  )
  const key = [
    ...named,
    ...[...cylinders].sort((a, b) => a - b).map((c) => `c${c}`),
    ...(bank === undefined ? [] : [`b${bank}`]),
  ].join(' ')
  // Of words that all join others nothing is left: two such places are not one.
  return key === '' ? place.trim().toLowerCase() : key
}
