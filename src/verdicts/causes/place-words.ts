import { withAlike } from '../../test-log/place/one-place.ts'
import { ownPartWords } from '../../test-log/place/other-parts.ts'
import { readPlaceWords } from '../../test-log/place/read-words.ts'
import { bankOf, type EngineLayout } from './engine-layout.ts'
import type { CausesTable } from './schema.ts'

/** What a place of the log means: the causes its words fit best, and the cylinders and bank it names. */
export interface PlaceMeaning {
  causes: readonly string[]
  /** The one cylinder it names; undefined for none or several. */
  cylinder: number | undefined
  cylinders: readonly number[]
  bank: string | undefined
  /** It names a part of another system and none of ours: no fault of mixture or spark sits there. */
  isElsewhere: boolean
}

/** Where only the cylinders and the bank of a place are asked for. */
export const NO_CAUSES: readonly string[] = []

/** Read once for every table, engine and set of causes: a ledger asks for the same few places over and over. */
const memo = new WeakMap<readonly string[], WeakMap<EngineLayout, Map<string, PlaceMeaning>>>()

/**
 * Reads a place in the technician's words, shorthand and four languages alike. A cause fits where every word of one of
 * its phrases is there; the causes whose phrase has the most words are meant, several where they tie (a plug may be worn
 * or fouled). Words of parts of other systems ("oil filter", "battery lead") are
 * left out. No cause: nothing fits.
 *
 * @param among  causes this kind of evidence can point at by place
 */
export function readPlace(
  place: string,
  about: { table: CausesTable; engine: EngineLayout; among: readonly string[] },
): PlaceMeaning {
  const ofCauses = memo.get(about.among) ?? new WeakMap<EngineLayout, Map<string, PlaceMeaning>>()
  const known = ofCauses.get(about.engine) ?? new Map<string, PlaceMeaning>()
  memo.set(about.among, ofCauses.set(about.engine, known))
  const read = known.get(place) ?? meaningOf(place, about)
  known.set(place, read)
  return read
}

function meaningOf(
  place: string,
  { table, engine, among }: { table: CausesTable; engine: EngineLayout; among: readonly string[] },
): PlaceMeaning {
  const read = readPlaceWords(place)
  const cylinders = read.cylinders.filter((c) => engine.cylinders.includes(c))
  const { own: words, others } = ownPartWords(withAlike(read.words))
  const scored = among.map((cause) => ({
    cause,
    score: Math.max(0, ...table.causes[cause]!.places.map((p) => phraseScore(p, words))),
  }))
  const best = Math.max(0, ...scored.map((s) => s.score))
  const isElsewhere = others && best === 0 && cylinders.length === 0
  const cylinder = cylinders.length === 1 ? cylinders[0] : undefined
  return {
    causes: best === 0 ? [] : scored.filter((s) => s.score === best).map((s) => s.cause),
    cylinder,
    cylinders,
    bank: bankNamed(read.bank, engine) ?? (cylinder === undefined ? undefined : bankOf(engine, cylinder)),
    isElsewhere,
  }
}

const phraseScore = (phrase: string, words: ReadonlySet<string>): number => {
  const needed = phrase.split(' ')
  return needed.every((w) => words.has(w)) ? needed.length : 0
}

const bankNamed = (named: string | undefined, engine: EngineLayout): string | undefined =>
  Object.keys(engine.banks ?? {}).find((bank) => bank.toLowerCase() === named)
