import { bankOf, type EngineLayout } from './engine-layout.ts'
import type { CausesTable } from './schema.ts'

/** What a place of the log means: the causes its words fit best, and the cylinder and bank it names. */
export interface PlaceMeaning {
  causes: readonly string[]
  cylinder: number | undefined
  bank: string | undefined
}

/**
 * Reads a place in the technician's words. A cause fits where every word of one of its phrases is there; the causes whose
 * phrase has the most words are meant, several where they tie (a plug may be worn or fouled). No cause: nothing fits.
 *
 * @param among  causes this kind of evidence can point at by place
 */
export function readPlace(
  place: string,
  { table, engine, among }: { table: CausesTable; engine: EngineLayout; among: readonly string[] },
): PlaceMeaning {
  const words = wordsOf(place)
  const scored = among.map((cause) => ({
    cause,
    score: Math.max(0, ...table.causes[cause]!.places.map((p) => phraseScore(p, words))),
  }))
  const best = Math.max(0, ...scored.map((s) => s.score))
  const cylinder = cylinderIn(place, engine)
  return {
    causes: best === 0 ? [] : scored.filter((s) => s.score === best).map((s) => s.cause),
    cylinder,
    bank: bankIn(place, engine) ?? (cylinder === undefined ? undefined : bankOf(engine, cylinder)),
  }
}

const phraseScore = (phrase: string, words: ReadonlySet<string>): number => {
  const needed = phrase.split(' ')
  return needed.every((w) => words.has(w)) ? needed.length : 0
}

/** Words in small letters; a plural's s is dropped and kept, and `cyl` counts as `cylinder`. */
function wordsOf(place: string): ReadonlySet<string> {
  const words = place
    .toLowerCase()
    .replaceAll('cyl.', 'cylinder ')
    .split(/[^a-z0-9-]+/)
    .filter((w) => w !== '')
  return new Set(
    words.flatMap((w) =>
      w === 'cyl' ? ['cylinder'] : w.length > 3 && w.endsWith('s') ? [w, w.slice(0, -1)] : [w],
    ),
  )
}

/** A cylinder named as such, or any lone number of the engine's cylinders in a place that names no bank. */
function cylinderIn(place: string, engine: EngineLayout): number | undefined {
  const lower = place.toLowerCase()
  const named = /(?:cylinder|cyl\.?|runner|no\.?|number|#)\s*(\d+)/.exec(lower)?.[1]
  const lone = /\bbank\b/.test(lower) ? undefined : /(?:^|[^\d.])(\d{1,2})(?![\d.])/.exec(lower)?.[1]
  const cylinder = Number(named ?? lone)
  return engine.cylinders.includes(cylinder) ? cylinder : undefined
}

function bankIn(place: string, engine: EngineLayout): string | undefined {
  const named = /\bbank\s*([a-z0-9]+)/.exec(place.toLowerCase())?.[1]
  return Object.keys(engine.banks ?? {}).find((bank) => bank.toLowerCase() === named)
}
