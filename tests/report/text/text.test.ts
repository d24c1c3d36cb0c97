import { describe, expect, test } from 'vitest'
import { cleanText, MISSING_SIGN, missingSigns } from '../../../src/report/text/clean-text.ts'
import { openTypeface } from '../../../src/report/text/typeface.ts'
import { wrap } from '../../../src/report/text/wrap.ts'
import { sampleTexts } from '../../support/sample-result.ts'

const all = () => true
const perSign = (text: string) => [...text].length

describe('clean text', () => {
  test('composes, parts at controls, drops what is not seen', () => {
    expect(cleanText('Cafe\u0301\tau\u200b lait\u00ad\u0007', all)).toBe('Caf\u00e9 au lait ')
  })
  test('shows a missing sign as a box, once a sign even beyond the basic plane', () => {
    const ascii = (codePoint: number) => codePoint < 0x7f
    expect(cleanText('a\u8f66\ud83d\ude97b', ascii)).toBe(`a${MISSING_SIGN}${MISSING_SIGN}b`)
    expect(missingSigns('a\u8f66\ud83d\ude97b\u8f66', ascii)).toEqual(['\u8f66', '\ud83d\ude97'])
  })
})

describe('wrap', () => {
  test('breaks at spaces, leaves none at the ends', () =>
    expect(wrap('one two  three', 7, perSign)).toEqual(['one two', 'three']))
  test('keeps no-break spaces', () =>
    expect(wrap('a 1.5\u00a0kV b', 6, perSign)).toEqual(['a', '1.5\u00a0kV', 'b']))
  test('breaks after hyphens and slashes between letters, not before digits', () => {
    expect(wrap('captures/idle-before.csv', 16, perSign)).toEqual(['captures/idle-', 'before.csv'])
    expect(wrap('ab 1-5-3-6', 8, perSign)).toEqual(['ab', '1-5-3-6'])
  })
  test('cuts a word wider than the line and loses nothing of it', () => {
    const word = 'Donaudampfschifffahrtsgesellschaft'
    const lines = wrap(`ein ${word} mehr`, 10, perSign)
    expect(lines.every((line) => perSign(line) <= 10)).toBe(true)
    expect(lines.join('').replaceAll(' ', '')).toBe(`ein${word}mehr`)
  })
  test('parts an interval behind its dots, never within a figure', () =>
    expect(wrap('\u22120.10\u2026\u22120.04', 8, perSign)).toEqual(['\u22120.10\u2026', '\u22120.04']))
  test('does not part a figure from its sign or unit, nor a mark or a short last word from what it ends', () => {
    expect(wrap('burns at 36 % in air', 11, perSign)).toEqual(['burns at', '36 % in air'])
    expect(wrap('at most 12 kV here', 10, perSign)).toEqual(['at most', '12 kV here'])
    expect(wrap('essai moteur : suite', 13, perSign)).toEqual(['essai', 'moteur :', 'suite'])
    expect(wrap('joint of cylinder 2', 17, perSign)).toEqual(['joint of', 'cylinder 2'])
  })
  test('parts them all the same where a line has no room for both', () =>
    expect(wrap('cylinder 2', 8, perSign)).toEqual(['cylinder', '2']))
  test('gives one empty line for nothing', () => expect(wrap('', 10, perSign)).toEqual(['']))
})

describe('typeface', () => {
  test('shapes plain text as fontkit does, letter for letter and kern for kern', async () => {
    const typeface = await openTypeface()
    const words =
      'AV. Tomato, Wagon 1.52 (1.47\u2009\u2026\u20091.58) \u2212\u202f3,000 To\u010dek \u0391\u03b8\u03ae\u03bd\u03b1 \u0416\u0443\u043a \u25b2 office'.split(
        ' ',
      )
    for (const font of Object.values(typeface.fonts)) {
      const own = Object.getPrototypeOf(font) as typeof font
      for (const word of words) {
        const [mine, theirs] = [font.layout(word), own.layout(word, { liga: false })]
        expect(
          mine.glyphs.map((g) => g.id),
          word,
        ).toEqual(theirs.glyphs.map((g) => g.id))
        expect(
          mine.positions.map((p) => p.xAdvance),
          word,
        ).toEqual(theirs.positions.map((p) => p.xAdvance))
        expect(mine.advanceWidth).toBe(theirs.advanceWidth)
      }
    }
  })
  test('an earlier report does not change how a later one names its glyphs', async () => {
    const spaceOf = async (first: string) => {
      const {
        fonts: { regular },
      } = await openTypeface()
      regular.layout(first)
      return regular.layout(' ').glyphs[0]!.codePoints
    }
    expect(await spaceOf('\u00a0')).toEqual([0x20])
    expect(await spaceOf(' ')).toEqual([0x20])
  })
  test('gives every glyph a letter, whatever marks are set upon whatever letters: a glyph without one has no meaning in the file', async () => {
    const { fonts, width } = await openTypeface()
    const words =
      'x\u0302 \u0233 n\u0304 a\u0301\u0323 q\u0307\u0323 Z\u0335 e\u0302\u0301 \u0430\u0301 \u03b1\u0304 A\u030a\u0301 \u0141\u0332 i\u0307\u0300'.split(
        ' ',
      )
    for (const [face, font] of Object.entries(fonts)) {
      for (const word of words.map((each) => each.normalize('NFC'))) {
        const { glyphs, positions } = font.layout(word)
        expect(
          glyphs.map(({ codePoints }) => codePoints.length > 0),
          word,
        ).not.toContain(false)
        const advance = positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0)
        expect(width(word, { face: face as keyof typeof fonts, sizePt: 1000 })).toBeCloseTo(advance, 6)
      }
    }
  })
  test('has every sign that the texts use', async () => {
    const { has } = await openTypeface()
    expect(missingSigns(Object.values(sampleTexts().templates).join(''), has)).toEqual([])
  })
})
