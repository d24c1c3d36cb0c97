/** Shaping, beside the measuring members declared in charts/fontkit.d.ts. */
declare module 'fontkit' {
  export interface Run {
    glyphs: { id: number; codePoints: number[]; advanceWidth: number }[]
    positions: {
      xAdvance: number
      yAdvance: number
      xOffset: number
      yOffset: number
      advanceWidth?: number
    }[]
    advanceWidth: number
  }
  export interface Font {
    postscriptName: string
    glyphForCodePoint(codePoint: number): { id: number; advanceWidth: number }
    layout(text: string, features?: Record<string, boolean>): Run
  }
}
