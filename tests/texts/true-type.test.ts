import { create } from 'fontkit'
import { describe, expect, test } from 'vitest'
import type { Font } from 'fontkit'
import { readFaceFile } from '../../src/texts/font-files.ts'
import { faceMeasures, readMeasures } from '../../src/texts/true-type.ts'

/** Letters of a report in four languages, Greek and Cyrillic, signs and spaces. */
const LETTERS = [
  ...'AVTWYLPFKRXJQaeiorstuvwyfgjdxz0179.,;:!?\'"()[]/-\u2013\u2212 \u00a0\u202f\u2009%°±äöüÉéñçŁčøß\u00bf\u2026\u201e\u201c\u2019\u00d7ΑΒΓΔΩαγλομςАГДТУЖрутлЎ▲→✓≤',
]
const FACES = ['regular', 'semibold', 'italic'] as const

describe.each(FACES)('%s', (face) => {
  const measures = faceMeasures(face)
  const font: Font = create(readFaceFile(face)) // an independent reader of the same file

  test('glyph and advance of every code point of the first plane and some beyond', () => {
    const wrong: number[] = []
    for (let codePoint = 0x20; codePoint < 0x11000; codePoint++) {
      if (codePoint >= 0xd800 && codePoint < 0xe000) continue
      const has = font.hasGlyphForCodePoint(codePoint)
      const glyph = has ? font.glyphForCodePoint(codePoint) : { id: 0, advanceWidth: measures.advanceOf(0) }
      if (
        measures.glyphOf(codePoint) !== glyph.id ||
        measures.advanceOf(measures.glyphOf(codePoint)) !== glyph.advanceWidth
      )
        wrong.push(codePoint)
    }
    expect(wrong).toEqual([])
  })

  test('kerning of every pair of letters that a report may hold', () => {
    const wrong: string[] = []
    let kerned = 0
    for (const left of LETTERS)
      for (const right of LETTERS) {
        const { glyphs, positions } = font.layout(left + right, { liga: false })
        const kern = measures.kernOf(glyphs[0]!.id, glyphs[1]!.id)
        if (kern !== positions[0]!.xAdvance - glyphs[0]!.advanceWidth) wrong.push(left + right)
        if (kern !== 0) kerned++
      }
    expect(wrong).toEqual([])
    expect(kerned).toBeGreaterThan(500)
  })
})

test('a file without the tables that measuring needs is refused', () => {
  const bytes = readFaceFile('regular').slice()
  const at = Buffer.from(bytes.buffer).indexOf('GPOS')
  bytes.set(Buffer.from('XXXX'), at)
  expect(() => readMeasures(bytes)).toThrow('no table GPOS')
})
