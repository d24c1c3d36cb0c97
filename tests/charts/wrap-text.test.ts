import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { create } from 'fontkit'
import { expect, test } from 'vitest'
import { faceOf, widthOf } from '../../src/charts/faces.ts'
import { wrapText } from '../../src/charts/wrap-text.ts'

const how = { sizePt: 8 }

test('lines are no wider than asked and hold every letter', () => {
  const words =
    'joint between the intake runner and the cylinder head averylongwordthatdoesnotfitinanyline Öffnung прокладка'
  const lines = wrapText(words, 60, how)
  expect(lines.every((line) => widthOf(line, 8) <= 60)).toBe(true)
  expect(lines.join('').replaceAll(' ', '')).toBe(words.replaceAll(' ', ''))
})

test('no-break spaces hold words together; an empty text is one empty line', () => {
  expect(wrapText('a no\u00a0response', widthOf('a no', 8) + 1, how)[0]).toBe('a')
  expect(wrapText('', 60, how)).toEqual([''])
})

/** Outside truth: the shaping engine that the PDF uses; it kerns, which narrows by a few per cent at most. */
test.each([
  ['regular', '400Regular/SourceSans3_400Regular.ttf'],
  ['strong', '600SemiBold/SourceSans3_600SemiBold.ttf'],
] as const)('widths of the %s face are those of its file, on the wide side', (face, file) => {
  const path = createRequire(import.meta.url).resolve(`@expo-google-fonts/source-sans-3/${file}`)
  const font = create(readFileSync(path))
  for (const words of [
    'Cylinder 12',
    'external resistance',
    '−34.0 %',
    'Leerlauf, warmer Motor',
    'AVATAR To We',
    'прокладка',
  ]) {
    const shaped = (font.layout(words).advanceWidth / font.unitsPerEm) * 8
    expect(widthOf(words, 8, face) / shaped).toBeGreaterThan(0.999)
    expect(widthOf(words, 8, face) / shaped).toBeLessThan(1.04)
  }
})

test('font weights map to the two faces', () => {
  expect([undefined, 400, 'normal', 'bold', 600, '700'].map(faceOf)).toEqual([
    'regular',
    'regular',
    'regular',
    'strong',
    'strong',
    'strong',
  ])
})
