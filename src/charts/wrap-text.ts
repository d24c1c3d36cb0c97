import { widthOf, type Face } from './faces.ts'

/** Breaks a word that is wider than the line, letter by letter. */
function breakWord(word: string, fits: (text: string) => boolean): string[] {
  const parts: string[] = []
  let part = ''
  for (const char of word) {
    if (part !== '' && !fits(part + char)) {
      parts.push(part)
      part = ''
    }
    part += char
  }
  return [...parts, part]
}

/** Text broken at spaces, not at no-break spaces, into lines no wider than `widthPt`; nothing is left out. At least one line. */
export function wrapText(text: string, widthPt: number, how: { sizePt: number; face?: Face }): string[] {
  const fits = (line: string) => widthOf(line, how.sizePt, how.face) <= widthPt
  const words = text
    .split(/[ \t\r\n]+/)
    .filter((word) => word !== '')
    .flatMap((word) => breakWord(word, fits))
  const lines: string[] = []
  for (const word of words) {
    const last = lines.at(-1)
    if (last !== undefined && fits(`${last} ${word}`)) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines.length > 0 ? lines : ['']
}
