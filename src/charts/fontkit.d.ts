/** The part of fontkit used to measure text; the package carries no types. */
declare module 'fontkit' {
  export interface Font {
    unitsPerEm: number
    glyphForCodePoint(codePoint: number): { advanceWidth: number }
    hasGlyphForCodePoint(codePoint: number): boolean
  }
  export function create(file: Uint8Array): Font
}
