/** Stands for a sign that the typeface lacks: an empty box, so that the reader sees that something is missing. */
export const MISSING_SIGN = '\u25a1'

// Tab, line ends and other controls part words; zero-width signs, soft hyphens and marks of direction are not seen anyway.
const CONTROLS = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g
const INVISIBLE = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufe00-\ufe0f\ufeff]/g

/**
 * Text that can be drawn whole: composed (NFC), without controls, every missing sign replaced by a visible box.
 * A glyph that is not there would be drawn as .notdef, which PDF/A and PDF/UA refuse.
 */
export function cleanText(text: string, has: (codePoint: number) => boolean): string {
  if (isClean(text, has)) return text
  const plain = text.normalize('NFC').replace(CONTROLS, ' ').replace(INVISIBLE, '')
  let clean = ''
  for (const sign of plain) clean += has(sign.codePointAt(0)!) ? sign : MISSING_SIGN
  return clean
}

/**
 * Whether a text is of signs that are composed, are seen and are there. Nearly every text of a report is: most are
 * measured more often than once, and looked through each time.
 */
function isClean(text: string, has: (codePoint: number) => boolean): boolean {
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    const isPlain =
      (code >= 0x20 && code < 0x7f) ||
      (code >= 0xa0 && code < 0x300 && code !== 0xad) ||
      (code >= 0x2010 && code < 0x2028) ||
      code === MINUS
    if (!isPlain || !has(code)) return false
  }
  return true
}

const MINUS = 0x2212

/** The signs of a text that cannot be drawn, each once, in order of first use. */
export function missingSigns(text: string, has: (codePoint: number) => boolean): readonly string[] {
  if (isClean(text, has)) return []
  const missing = new Set<string>()
  for (const sign of text.normalize('NFC').replace(CONTROLS, ' ').replace(INVISIBLE, ''))
    if (!has(sign.codePointAt(0)!)) missing.add(sign)
  return [...missing]
}
