import { beforeEach, describe, expect, test } from 'vitest'
import { arcCurves } from '../../../src/report/pdf/arc.ts'
import { parseCanvasFont } from '../../../src/report/pdf/canvas-font.ts'
import { PdfContext2D } from '../../../src/report/pdf/canvas-context.ts'
import { parseColor } from '../../../src/report/pdf/color.ts'
import { openDocument } from '../../../src/report/pdf/document.ts'
import { openTypeface } from '../../../src/report/text/typeface.ts'

let operators: string[]
let context: PdfContext2D

beforeEach(async () => {
  const typeface = await openTypeface()
  const doc = await openDocument(
    {
      title: 't',
      author: 'a',
      subject: 's',
      language: 'en',
      when: '2026-03-04T00:00:00Z',
      tool: 'x',
      producer: 'y',
      inputsSha256: '0'.repeat(64),
    },
    { paper: 'A4', typeface },
  )
  doc.addPage()
  operators = []
  const write = doc.addContent.bind(doc)
  doc.addContent = (content: string) => {
    operators.push(content)
    return write(content)
  }
  context = new PdfContext2D(doc, typeface)
})

describe('canvas on paper (rules: WHATWG HTML, 2D context)', () => {
  test('points go through the matrix in force when they are added, not when they are filled', () => {
    context.save()
    context.translate(100, 50)
    context.beginPath()
    context.rect(0, 0, 10, 20)
    context.restore()
    context.fill()
    expect(operators.at(-1)).toBe('100 50 m 110 50 l 110 70 l 100 70 l h f')
  })

  test('rotates clockwise by radians, as canvas does with y downwards', () => {
    context.rotate(Math.PI / 2)
    context.beginPath()
    context.moveTo(10, 0)
    context.lineTo(0, 10)
    context.stroke()
    expect(operators.at(-1)).toBe('0 10 m -10 0 l S')
  })

  test('save and restore carry style and matrix, and q and Q stay in balance', () => {
    context.fillStyle = '#652a57'
    context.save()
    context.fillStyle = 'black'
    context.lineWidth = 3
    context.restore()
    context.restore()
    expect(context.fillStyle).toBe('#652a57')
    expect(context.lineWidth).toBe(1)
    expect(operators).toEqual(['q', 'Q'])
  })

  test('a quadratic curve keeps its end points and the two thirds rule', () => {
    context.beginPath()
    context.moveTo(0, 0)
    context.quadraticCurveTo(30, 60, 60, 0)
    context.stroke()
    expect(operators.at(-1)).toBe('0 0 m 20 40 40 40 60 0 c S')
  })

  test('a dash without gaps is a full line; an odd list is doubled', () => {
    context.setLineDash([1, 0])
    expect(context.getLineDash()).toEqual([1, 0])
    context.beginPath()
    context.moveTo(0, 0)
    context.lineTo(1, 1)
    context.stroke()
    expect(operators).toContain('[] 0 d')
    context.setLineDash([4])
    context.stroke()
    expect(operators).toContain('[4 4] 0 d')
  })

  test('line widths and dashes scale with the matrix', () => {
    context.scale(2, 2)
    context.lineWidth = 1.5
    context.setLineDash([3, 2])
    context.strokeRect(0, 0, 5, 5)
    expect(operators).toContain('3 w')
    expect(operators).toContain('[6 4] 0 d')
  })

  test('opacity is the product of colour and global alpha; nothing is drawn at nought', () => {
    context.globalAlpha = 0.5
    context.fillStyle = 'rgba(0, 0, 0, 0.5)'
    context.fillRect(0, 0, 1, 1)
    expect(operators.some((line) => /^\/Gs\d+ gs$/.test(line))).toBe(true)
    const before = operators.length
    context.fillStyle = 'transparent'
    context.fillRect(0, 0, 1, 1)
    expect(operators).toHaveLength(before)
  })

  test('text is set by its own width: right-aligned text ends where it was put', () => {
    context.font = '600 10px Source Sans 3'
    const { width } = context.measureText('12.5 kV')
    context.textAlign = 'right'
    context.fillText('12.5 kV', 200, 40)
    const [x, y] = operators
      .at(-1)!
      .match(/([\d.-]+) ([\d.-]+) Tm/)!
      .slice(1)
      .map(Number)
    expect(x).toBeCloseTo(200 - width, 1)
    expect(y).toBe(40)
  })

  test('clips before drawing, by either rule', () => {
    context.beginPath()
    context.rect(0, 0, 4, 4)
    context.clip('evenodd')
    expect(operators.at(-1)).toMatch(/W\* n$/)
  })

  test.each<[string, () => void]>([
    ['pictures', () => context.drawImage()],
    ['outlined text', () => context.strokeText()],
    [
      'blend modes',
      () => {
        context.globalCompositeOperation = 'multiply'
      },
    ],
    ['patterns', () => context.createPattern()],
    ['radial gradients', () => context.createRadialGradient()],
    [
      'shadows',
      () => {
        context.shadowBlur = 3
      },
    ],
    [
      'an unknown colour',
      () => {
        context.fillStyle = 'rebeccapurple'
        context.fillRect(0, 0, 1, 1)
      },
    ],
    ['a point that is no number', () => context.moveTo(Number.NaN, 0)],
  ])('throws on %s instead of dropping them', (_, draw) => expect(draw).toThrow())
})

describe('arcs', () => {
  test('a full turn closes on itself and stays on its circle to 0.03 %', () => {
    const { start, curves } = arcCurves({ x: 5, y: 5, radius: 10, from: 0, to: 2 * Math.PI, back: false })
    expect(curves).toHaveLength(4)
    expect(curves.at(-1)!.slice(4)[0]).toBeCloseTo(start[0], 9)
    let from = start
    for (const [x1, y1, x2, y2, x, y] of curves) {
      for (const t of [0.1, 0.25, 0.5, 0.8]) {
        const at = (a: number, b: number, c: number, d: number) =>
          (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t * t * (1 - t) * c + t ** 3 * d
        expect(
          Math.abs(Math.hypot(at(from[0], x1, x2, x) - 5, at(from[1], y1, y2, y) - 5) / 10 - 1),
        ).toBeLessThan(3e-4)
      }
      from = [x, y]
    }
  })
  test('runs backwards when asked, over the other part of the circle', () => {
    const quarter = arcCurves({ x: 0, y: 0, radius: 1, from: 0, to: -Math.PI / 2, back: true })
    expect(quarter.curves).toHaveLength(1)
    expect(quarter.curves[0]!.slice(4)[1]).toBeCloseTo(-1, 9)
    expect(arcCurves({ x: 0, y: 0, radius: 1, from: 0, to: -Math.PI / 2, back: false }).curves).toHaveLength(
      3,
    )
  })
})

test('colours as CSS writes them', () => {
  expect(parseColor('#f00')).toEqual({ r: 1, g: 0, b: 0, a: 1 })
  expect(parseColor('#00ff0080')).toMatchObject({ g: 1, a: 128 / 255 })
  expect(parseColor('rgb(255, 0, 51)')).toEqual({ r: 1, g: 0, b: 0.2, a: 1 })
  expect(() => parseColor('chartreuse')).toThrow()
})

test('fonts as canvas writes them', () => {
  expect(parseCanvasFont('8px Source Sans 3')).toEqual({ face: 'regular', sizePt: 8 })
  expect(parseCanvasFont('normal 600 7.5px "Source Sans 3"')).toEqual({ face: 'semibold', sizePt: 7.5 })
  expect(parseCanvasFont('italic 9px x')).toEqual({ face: 'italic', sizePt: 9 })
  expect(() => parseCanvasFont('large x')).toThrow()
})
