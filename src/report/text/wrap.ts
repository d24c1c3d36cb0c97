/** Width of a text in points. */
export type Width = (text: string) => number

/**
 * Breaks a text into lines no wider than asked. Breaks at spaces, after the dots of an interval, and after hyphens and slashes between words of three letters or more (not in kV/ms);
 * a word wider than the line (a digest, a long path, a long foreign word) is cut between letters.
 * No-break spaces hold; so do others, where the line is wide enough for both sides: between a figure and its sign or
 * unit, before a mark that some languages set apart, and before a last word of one or two signs, which would stand alone.
 * An empty text gives one empty line.
 *
 * @param text  drawable text (see clean-text.ts)
 * @returns     lines without their trailing space, at least one
 */
export function wrap(text: string, widthPt: number, width: Width): readonly string[] {
  const lines: string[] = []
  let line = ''
  for (const piece of held(pieces(text), (joined) => width(joined.trimEnd()) <= widthPt)) {
    if (width((line + piece).trimEnd()) <= widthPt) {
      line += piece
      continue
    }
    if (line.trim() !== '') lines.push(line.trimEnd())
    line = ''
    for (const part of cut(piece, widthPt, width)) {
      if (line !== '') lines.push(line.trimEnd())
      line = part
    }
  }
  return line.trim() === '' && lines.length > 0 ? lines : [...lines, line.trimEnd()]
}

/** Pieces after which a line may end, each with the space behind it. */
const pieces = (text: string): readonly string[] =>
  text
    .trim()
    .replace(/ {2,}/g, ' ')
    .match(
      /[^ ]+? *(?:(?<=[\p{L}\p{N}]{3}[-/_\u2013])(?=\p{L}{3})|(?<=\p{N}\u2026)(?=[\u2212\p{N}])|(?<= )|$)/gu,
    ) ?? []

/** What is not parted from what stands before it. */
const HELD_MARK = /^[%:;?!\u00bb]/
const HELD_UNIT =
  /^(?:kV|kV\/ms|ms|s|rpm|1\/min|tr\/min|k?Hz|kS\/s|kPa|bar|psi|ppm|mm|g\/s|\u00b0C)(?![\p{L}\p{N}])/u
const LEAST_LAST = 3

/** Pieces that belong together made one, unless that is wider than a line. */
function held(all: readonly string[], fits: (joined: string) => boolean): readonly string[] {
  const joined: string[] = []
  all.forEach((piece, i) => {
    const before = joined.at(-1)
    const isHeld =
      before !== undefined &&
      before.endsWith(' ') &&
      (HELD_MARK.test(piece) ||
        (HELD_UNIT.test(piece) && /\d $/.test(before)) ||
        (i === all.length - 1 && [...piece.trimEnd()].length < LEAST_LAST) ||
        before.endsWith('\u00ab '))
    if (isHeld && fits(before + piece)) joined[joined.length - 1] = before + piece
    else joined.push(piece)
  })
  return joined
}

function cut(piece: string, widthPt: number, width: Width): readonly string[] {
  if (width(piece.trimEnd()) <= widthPt) return [piece]
  const signs = [...piece]
  const parts: string[] = []
  let from = 0
  while (from < signs.length) {
    const to = longestFit(signs, from, (part) => width(part) <= widthPt)
    parts.push(signs.slice(from, to).join(''))
    from = to
  }
  return parts
}

/** End of the longest part from `from` on that fits; at least one sign, or nothing would ever be placed. */
function longestFit(signs: readonly string[], from: number, fits: (part: string) => boolean): number {
  let low = from + 1
  let high = signs.length
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (fits(signs.slice(from, middle).join('').trimEnd())) low = middle
    else high = middle - 1
  }
  return low
}
