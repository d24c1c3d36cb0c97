/** Longer words are cut before they are compared: a suggestion is for a slip of the pen, and work must stay bounded. */
const COMPARED_CHARACTERS = 64

/**
 * Slips of the pen between two words: letters put in, left out, changed, or two neighbours swapped, each counted once
 * (optimal string alignment distance: no piece is edited twice). Case does not count.
 *
 * @source Damerau 1964, Communications of the ACM 7(3), 171-176 (the four kinds of slip)
 */
export function slips(first: string, second: string): number {
  const a = [...first.toLowerCase()].slice(0, COMPARED_CHARACTERS)
  const b = [...second.toLowerCase()].slice(0, COMPARED_CHARACTERS)
  let beforeLast: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const changed = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)
      let least = Math.min(changed, last[j]! + 1, row[j - 1]! + 1)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      if (swapped) least = Math.min(least, beforeLast[j - 2]! + 1)
      row.push(least)
    }
    beforeLast = last
    last = row
  }
  return last[b.length]!
}

/** The known word with the fewest slips from `word`, the first of equals; '' where none is known. */
export const nearest = (word: string, known: Iterable<string>): string => closest(word, known).best

function closest(word: string, known: Iterable<string>): { best: string; fewest: number } {
  let best = ''
  let fewest = Infinity
  for (const candidate of known) {
    const count = slips(word, candidate)
    if (count < fewest) {
      fewest = count
      best = candidate
    }
  }
  return { best, fewest }
}

/** Share of a word's letters that may be slips before another word was meant. */
const MOST_SHARE = 0.45
/** In a shorter word one letter may be another, and none be left out: C02 is CO2, E15 is not E5. */
const LEAST_LETTERS = 4

/** The known word that was likely meant: near enough to be a slip, or with the word in it; '' where none is. */
export function near(word: string, known: Iterable<string>): string {
  const { best, fewest } = closest(word, known)
  const [a, b] = [word.trim().toLowerCase(), best.toLowerCase()]
  const most =
    a.length < LEAST_LETTERS
      ? Number(a.length === b.length && a.length > 1)
      : Math.floor(MOST_SHARE * Math.max(a.length, b.length))
  const within = a.length > 2 && b.length > 2 && (a.includes(b) || b.includes(a))
  return within || fewest <= most ? best : ''
}
