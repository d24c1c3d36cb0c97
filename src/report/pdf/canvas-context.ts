import type PDFDocument from 'pdfkit'
import type { Gradient } from 'pdfkit'
import { cleanText } from '../text/clean-text.ts'
import type { Typeface } from '../text/typeface.ts'
import { arcCurves } from './arc.ts'
import { parseCanvasFont } from './canvas-font.ts'
import { parseColor } from './color.ts'
import { num, showText, type Matrix } from './show-text.ts'

/** A linear gradient in the page's coordinates. */
export class PdfGradient {
  readonly gradient: Gradient
  constructor(gradient: Gradient) {
    this.gradient = gradient
  }
  addColorStop(at: number, color: string): void {
    const { a } = parseColor(color)
    this.gradient.stop(at, hexOf(color), a)
  }
}

export type Paint = string | PdfGradient

/** What canvas's save() keeps. */
interface State {
  matrix: Matrix
  fillStyle: Paint
  strokeStyle: Paint
  lineWidth: number
  lineCap: 'butt' | 'round' | 'square'
  lineJoin: 'miter' | 'round' | 'bevel'
  miterLimit: number
  globalAlpha: number
  dash: readonly number[]
  dashOffset: number
  font: string
  textAlign: 'left' | 'right' | 'center' | 'start' | 'end'
  textBaseline: 'alphabetic'
}

const START: Omit<State, 'matrix'> = {
  fillStyle: '#000000',
  strokeStyle: '#000000',
  lineWidth: 1,
  lineCap: 'butt',
  lineJoin: 'miter',
  miterLimit: 10,
  globalAlpha: 1,
  dash: [],
  dashOffset: 0,
  font: '10px regular',
  textAlign: 'start',
  textBaseline: 'alphabetic',
}

const CAPS = { butt: 0, round: 1, square: 2 } as const
const JOINS = { miter: 0, round: 1, bevel: 2 } as const

/**
 * The part of the browser's CanvasRenderingContext2D that Vega draws with, writing PDF operators.
 * Every point is put through the matrix in force when it is added, as canvas has it, so no `cm` is ever written.
 * Whatever it cannot draw (pictures, blend modes, outlined text, shadows) throws: nothing is lost in silence.
 * @source WHATWG HTML, 4.12.5 The canvas element, 2D context
 */
export class PdfContext2D {
  readonly pixelRatio = 1
  readonly #doc: PDFDocument
  readonly #typeface: Typeface
  #state: State
  readonly #stack: State[] = []
  #path: string[] = []
  #last: readonly [number, number] = [0, 0]
  /** Colour, width and the like written since the last q, so that they are not written twice. */
  #written = new Map<string, string>()
  readonly #writtenStack: Map<string, string>[] = []

  /** @param matrix  canvas space to the page's top-left coordinates in points */
  constructor(doc: PDFDocument, typeface: Typeface, matrix: Matrix = [1, 0, 0, 1, 0, 0]) {
    this.#doc = doc
    this.#typeface = typeface
    this.#state = { ...START, matrix }
  }

  get fillStyle(): Paint {
    return this.#state.fillStyle
  }
  set fillStyle(paint: Paint) {
    this.#state.fillStyle = paint
  }
  get strokeStyle(): Paint {
    return this.#state.strokeStyle
  }
  set strokeStyle(paint: Paint) {
    this.#state.strokeStyle = paint
  }
  get lineWidth(): number {
    return this.#state.lineWidth
  }
  set lineWidth(width: number) {
    if (width > 0 && Number.isFinite(width)) this.#state.lineWidth = width
  }
  get lineCap(): State['lineCap'] {
    return this.#state.lineCap
  }
  set lineCap(cap: State['lineCap']) {
    this.#state.lineCap = cap
  }
  get lineJoin(): State['lineJoin'] {
    return this.#state.lineJoin
  }
  set lineJoin(join: State['lineJoin']) {
    this.#state.lineJoin = join
  }
  get miterLimit(): number {
    return this.#state.miterLimit
  }
  set miterLimit(limit: number) {
    this.#state.miterLimit = limit
  }
  get globalAlpha(): number {
    return this.#state.globalAlpha
  }
  set globalAlpha(alpha: number) {
    if (alpha >= 0 && alpha <= 1) this.#state.globalAlpha = alpha
  }
  get font(): string {
    return this.#state.font
  }
  set font(font: string) {
    this.#state.font = font
  }
  get textAlign(): State['textAlign'] {
    return this.#state.textAlign
  }
  set textAlign(align: State['textAlign']) {
    this.#state.textAlign = align
  }
  get textBaseline(): 'alphabetic' {
    return 'alphabetic'
  }
  set textBaseline(baseline: string) {
    if (baseline !== 'alphabetic') throw cannot(`text baseline '${baseline}'`)
  }
  get lineDashOffset(): number {
    return this.#state.dashOffset
  }
  set lineDashOffset(offset: number) {
    this.#state.dashOffset = offset
  }
  get globalCompositeOperation(): 'source-over' {
    return 'source-over'
  }
  set globalCompositeOperation(mode: string) {
    if (mode !== 'source-over') throw cannot(`blend mode '${mode}'`)
  }
  get shadowBlur(): number {
    return 0
  }
  set shadowBlur(blur: number) {
    if (blur !== 0) throw cannot('shadows')
  }

  save(): void {
    this.#stack.push({ ...this.#state })
    this.#writtenStack.push(this.#written)
    this.#written = new Map(this.#written)
    this.#doc.addContent('q')
  }

  restore(): void {
    const state = this.#stack.pop()
    if (!state) return
    this.#state = state
    this.#written = this.#writtenStack.pop()!
    this.#doc.addContent('Q')
  }

  transform(...[a, b, c, d, e, f]: [number, number, number, number, number, number]): void {
    const [A, B, C, D, E, F] = this.#state.matrix
    this.#state.matrix = [
      A * a + C * b,
      B * a + D * b,
      A * c + C * d,
      B * c + D * d,
      A * e + C * f + E,
      B * e + D * f + F,
    ]
  }
  translate(x: number, y: number): void {
    this.transform(1, 0, 0, 1, x, y)
  }
  scale(x: number, y: number): void {
    this.transform(x, 0, 0, y, 0, 0)
  }
  rotate(angle: number): void {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
    this.transform(cos, sin, -sin, cos, 0, 0)
  }
  setTransform(): void {
    throw cannot('a transform set outright: it would lose the place on the page')
  }
  resetTransform(): void {
    throw cannot('a transform set outright: it would lose the place on the page')
  }

  beginPath(): void {
    this.#path = []
  }
  closePath(): void {
    if (this.#path.length > 0) this.#path.push('h')
  }
  moveTo(x: number, y: number): void {
    this.#add('m', [x, y])
  }
  lineTo(x: number, y: number): void {
    this.#add(this.#path.length === 0 ? 'm' : 'l', [x, y])
  }
  bezierCurveTo(...points: [number, number, number, number, number, number]): void {
    this.#add('c', points)
  }
  quadraticCurveTo(...[cx, cy, x, y]: [number, number, number, number]): void {
    const [x0, y0] = this.#last
    this.#add('c', [
      x0 + (2 / 3) * (cx - x0),
      y0 + (2 / 3) * (cy - y0),
      x + (2 / 3) * (cx - x),
      y + (2 / 3) * (cy - y),
      x,
      y,
    ])
  }
  rect(...[x, y, width, height]: [number, number, number, number]): void {
    this.moveTo(x, y)
    this.lineTo(x + width, y)
    this.lineTo(x + width, y + height)
    this.lineTo(x, y + height)
    this.closePath()
    this.#last = [x, y]
  }
  arc(...[x, y, radius, from, to, back = false]: [number, number, number, number, number, boolean?]): void {
    const { start, curves } = arcCurves({ x, y, radius, from, to, back })
    this.lineTo(...start)
    for (const curve of curves) this.bezierCurveTo(...curve)
  }

  fill(rule?: 'nonzero' | 'evenodd'): void {
    if (this.#path.length === 0 || !this.#useFill()) return
    this.#doc.addContent(`${this.#path.join(' ')} ${rule === 'evenodd' ? 'f*' : 'f'}`)
  }
  stroke(): void {
    if (this.#path.length === 0 || !this.#useStroke()) return
    this.#doc.addContent(`${this.#path.join(' ')} S`)
  }
  clip(rule?: 'nonzero' | 'evenodd'): void {
    const path = this.#path.length === 0 ? ['0 0 m', 'h'] : this.#path
    this.#doc.addContent(`${path.join(' ')} ${rule === 'evenodd' ? 'W*' : 'W'} n`)
  }
  fillRect(...box: [number, number, number, number]): void {
    this.#alone(() => {
      this.rect(...box)
      this.fill()
    })
  }
  strokeRect(...box: [number, number, number, number]): void {
    this.#alone(() => {
      this.rect(...box)
      this.stroke()
    })
  }
  /** The page is blank already; a chart may not wipe what stands beside it. */
  clearRect(): void {}

  setLineDash(dash: readonly number[]): void {
    this.#state.dash = dash.length % 2 === 0 ? [...dash] : [...dash, ...dash]
  }
  getLineDash(): number[] {
    return [...this.#state.dash]
  }

  fillText(text: string, x: number, y: number): void {
    const clean = cleanText(text, this.#typeface.has)
    if (clean === '' || !this.#useFill()) return
    const { face, sizePt } = parseCanvasFont(this.#state.font)
    const width = this.#typeface.width(clean, { face, sizePt })
    const shift =
      this.#state.textAlign === 'center'
        ? width / 2
        : ['right', 'end'].includes(this.#state.textAlign)
          ? width
          : 0
    const [a, b, c, d] = this.#state.matrix
    showText(this.#doc, clean, {
      fontName: this.#typeface.fonts[face].postscriptName,
      sizePt,
      matrix: [a, b, c, d, ...this.#point(x - shift, y)],
    })
  }
  measureText(text: string): { width: number } {
    return {
      width: this.#typeface.width(cleanText(text, this.#typeface.has), parseCanvasFont(this.#state.font)),
    }
  }
  strokeText(): void {
    throw cannot('outlined text')
  }
  drawImage(): void {
    throw cannot('pictures')
  }
  putImageData(): void {
    throw cannot('pictures')
  }
  createPattern(): never {
    throw cannot('patterns')
  }
  createRadialGradient(): never {
    throw cannot('radial gradients')
  }
  createLinearGradient(...[x0, y0, x1, y1]: [number, number, number, number]): PdfGradient {
    return new PdfGradient(this.#doc.linearGradient(...this.#point(x0, y0), ...this.#point(x1, y1)))
  }
  /** Nobody points at paper. */
  isPointInPath(): boolean {
    return false
  }
  isPointInStroke(): boolean {
    return false
  }

  #point(x: number, y: number): [number, number] {
    const [a, b, c, d, e, f] = this.#state.matrix
    return [a * x + c * y + e, b * x + d * y + f]
  }

  #add(operator: 'm' | 'l' | 'c', points: readonly number[]): void {
    if (!points.every(Number.isFinite)) throw new Error('a chart has a point that is not a number')
    if (operator === 'c' && this.#path.length === 0) this.#add('m', points.slice(0, 2))
    let written = ''
    for (let i = 0; i < points.length; i += 2) {
      const [x, y] = this.#point(points[i]!, points[i + 1]!)
      written += `${num(x)} ${num(y)} `
    }
    this.#path.push(written + operator)
    this.#last = [points.at(-2)!, points.at(-1)!]
  }

  /** Draws a box without touching the path begun. */
  #alone(draw: () => void): void {
    const kept = this.#path
    this.#path = []
    draw()
    this.#path = kept
  }

  /** Sets colour and opacity of fills; false where nothing would be seen. */
  #useFill(): boolean {
    return this.#usePaint(this.#state.fillStyle, false)
  }

  #useStroke(): boolean {
    const {
      lineWidth,
      lineCap,
      lineJoin,
      miterLimit,
      dash,
      dashOffset,
      matrix: [a, b, c, d],
    } = this.#state
    if (!this.#usePaint(this.#state.strokeStyle, true)) return false
    const scale = Math.sqrt(Math.abs(a * d - b * c))
    this.#set('w', num(lineWidth * scale, 3))
    this.#set('J', String(CAPS[lineCap]))
    this.#set('j', String(JOINS[lineJoin]))
    this.#set('M', num(miterLimit))
    // A dash without gaps is a full line; PDF readers disagree on an array of zeros.
    const gaps = dash.some((length, i) => i % 2 === 1 && length > 0)
    this.#set(
      'd',
      gaps ? `[${dash.map((length) => num(length * scale)).join(' ')}] ${num(dashOffset * scale)}` : '[] 0',
    )
    return true
  }

  #usePaint(paint: Paint, stroke: boolean): boolean {
    if (paint instanceof PdfGradient) {
      this.#opacity(this.#state.globalAlpha, stroke)
      paint.gradient.apply(stroke)
      this.#written.delete(stroke ? 'RG' : 'rg')
      return true
    }
    const { r, g, b, a } = parseColor(paint)
    const alpha = a * this.#state.globalAlpha
    if (alpha === 0) return false
    this.#opacity(alpha, stroke)
    this.#set(stroke ? 'RG' : 'rg', [r, g, b].map((part) => num(part, 3)).join(' '))
    return true
  }

  #opacity(alpha: number, stroke: boolean): void {
    const key = stroke ? 'CA' : 'ca'
    const value = num(alpha, 3)
    if ((this.#written.get(key) ?? '1') === value) return
    this.#written.set(key, value)
    if (stroke) this.#doc.strokeOpacity(Number(value))
    else this.#doc.fillOpacity(Number(value))
  }

  #set(operator: string, value: string): void {
    if (this.#written.get(operator) === value) return
    this.#written.set(operator, value)
    this.#doc.addContent(`${value} ${operator}`)
  }
}

const cannot = (what: string) => new Error(`the PDF canvas cannot draw ${what}`)

function hexOf(color: string): string {
  const { r, g, b } = parseColor(color)
  return `#${[r, g, b]
    .map((part) =>
      Math.round(part * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`
}
