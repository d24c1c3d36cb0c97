import { readSvgPath, type PathStep } from './svg-path.ts'
import { readSvgXml, type SvgElement } from './svg-xml.ts'

/** One outline to fill or stroke, its points in the drawing's own units. */
interface SvgShape {
  steps: readonly PathStep[]
  /** a b c d e f, from the shape's units to the drawing's. */
  matrix: readonly [number, number, number, number, number, number]
  fill: string | undefined
  evenOdd: boolean
  stroke: string | undefined
  strokeWidth: number
}

export interface SvgDrawing {
  x: number
  y: number
  width: number
  height: number
  shapes: readonly SvgShape[]
}

/** A drawing, or the element or attribute that is not among those that can be drawn. */
export type SvgLook = { ok: true; drawing: SvgDrawing } | { ok: false; found: string }

/** Presentation attributes known, with what holds where none is given. */
interface Look {
  fill: string
  stroke: string
  strokeWidth: string
  fillRule: string
}
const START: Look = { fill: '#000000', stroke: 'none', strokeWidth: '1', fillRule: 'nonzero' }
const LOOKS: Readonly<Record<string, keyof Look>> = {
  fill: 'fill',
  stroke: 'stroke',
  'stroke-width': 'strokeWidth',
  'fill-rule': 'fillRule',
}
/** Attributes that draw nothing or are read by the element itself. */
const QUIET =
  /^(xmlns(:.*)?|xml:.*|id|version|baseProfile|role|aria-.*|data-.*|style|transform|viewBox|width|height|preserveAspectRatio|d|x|y|r|rx|ry|cx|cy|x1|y1|x2|y2|points|enable-background)$/
const COLOUR = /^(#[0-9a-f]{3}|#[0-9a-f]{6}|rgb\(\s*\d+\s*,\s*\d+\s*,\s*\d+\s*\)|none|black|white)$/i

/** Elements that are drawn. */
const DRAWN = ['g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon']

type Matrix = SvgShape['matrix']
class Unsupported extends Error {}
const refuse = (found: string): never => {
  throw new Unsupported(found)
}

/**
 * Reads the part of SVG that a plain logo is made of: paths and basic shapes in flat colours, grouped and transformed.
 * Text, pictures, gradients, filters, style sheets, scripts and anything fetched are refused by name, never dropped.
 * @source SVG 1.1 (second edition), chapters 7.6 (transform), 8 (paths), 9 (basic shapes), 11 (painting)
 */
export function readSvg(text: string): SvgLook {
  const root = readSvgXml(text)
  if (root?.name !== 'svg') return { ok: false, found: 'XML' }
  try {
    const shapes = root.children.flatMap((child) =>
      shapesOf(child, { look: lookOf(root, START), matrix: [1, 0, 0, 1, 0, 0] }),
    )
    return { ok: true, drawing: { ...viewOf(root), shapes } }
  } catch (cause) {
    if (!(cause instanceof Unsupported)) throw cause
    return { ok: false, found: cause.message }
  }
}

function viewOf({ attributes }: SvgElement): Omit<SvgDrawing, 'shapes'> {
  const box = attributes['viewBox']
    ?.trim()
    .split(/[\s,]+/)
    .map(Number) ?? [
    0,
    0,
    Number.parseFloat(attributes['width'] ?? ''),
    Number.parseFloat(attributes['height'] ?? ''),
  ]
  const [x, y, width, height] = box as [number, number, number, number]
  if (box.length !== 4 || !box.every(Number.isFinite) || width <= 0 || height <= 0) refuse('viewBox')
  return { x, y, width, height }
}

function shapesOf(element: SvgElement, from: { look: Look; matrix: Matrix }): SvgShape[] {
  const { name, attributes, children } = element
  if (['title', 'desc', 'metadata'].includes(name)) return []
  if (name === 'defs' && children.length === 0) return []
  if (!DRAWN.includes(name)) return refuse(`<${name}>`)
  const look = lookOf(element, from.look)
  const matrix = times(from.matrix, transformOf(attributes['transform']))
  if (name === 'g') return children.flatMap((child) => shapesOf(child, { look, matrix }))
  const steps = outlineOf(element)
  if (!steps) return refuse(`<${name}>`)
  const paint = (colour: string) => (colour.toLowerCase() === 'none' ? undefined : colour.toLowerCase())
  return [
    {
      steps,
      matrix,
      fill: paint(look.fill),
      evenOdd: look.fillRule === 'evenodd',
      stroke: paint(look.stroke),
      strokeWidth: Number.parseFloat(look.strokeWidth),
    },
  ]
}

function lookOf({ attributes }: SvgElement, above: Look): Look {
  const styled = (attributes['style'] ?? '')
    .split(';')
    .map((part) => part.split(':').map((word) => word.trim()))
    .filter(([name]) => name !== '')
  const look = { ...above }
  for (const [name, value = ''] of [
    ...Object.entries(attributes).filter(([key]) => !QUIET.test(key)),
    ...styled,
  ] as [string, string][]) {
    const key = LOOKS[name] ?? refuse(name)
    if ((key === 'fill' || key === 'stroke') && !COLOUR.test(value)) refuse(`${name}="${value}"`)
    look[key] = value
  }
  return look
}

function outlineOf({ name, attributes }: SvgElement): PathStep[] | undefined {
  const n = (key: string) => Number(attributes[key] ?? 0)
  const pairs = () =>
    (attributes['points'] ?? '')
      .trim()
      .split(/[\s,]+/)
      .map(Number)
  switch (name) {
    case 'path':
      return readSvgPath(attributes['d'] ?? '')
    case 'rect':
      if (n('rx') !== 0 || n('ry') !== 0) return refuse('rx')
      return polygon(
        [
          n('x'),
          n('y'),
          n('x') + n('width'),
          n('y'),
          n('x') + n('width'),
          n('y') + n('height'),
          n('x'),
          n('y') + n('height'),
        ],
        true,
      )
    case 'circle':
      return ellipse(n('cx'), n('cy'), [n('r'), n('r')])
    case 'ellipse':
      return ellipse(n('cx'), n('cy'), [n('rx'), n('ry')])
    case 'line':
      return polygon([n('x1'), n('y1'), n('x2'), n('y2')], false)
    case 'polyline':
      return polygon(pairs(), false)
    case 'polygon':
      return polygon(pairs(), true)
    default:
      return undefined
  }
}

function polygon(points: readonly number[], closed: boolean): PathStep[] | undefined {
  if (points.length < 4 || points.length % 2 === 1 || !points.every(Number.isFinite)) return undefined
  const steps: PathStep[] = Array.from({ length: points.length / 2 }, (_, i) => [
    i === 0 ? 'M' : 'L',
    points[2 * i]!,
    points[2 * i + 1]!,
  ])
  return closed ? [...steps, ['Z']] : steps
}

const ellipse = (cx: number, cy: number, [rx, ry]: readonly [number, number]): PathStep[] | undefined =>
  readSvgPath(`M${cx - rx} ${cy}A${rx} ${ry} 0 1 1 ${cx + rx} ${cy}A${rx} ${ry} 0 1 1 ${cx - rx} ${cy}Z`)

const times = ([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix => [
  a * A + c * B,
  b * A + d * B,
  a * C + c * D,
  b * C + d * D,
  a * E + c * F + e,
  b * E + d * F + f,
]

/** Longest transform that is read, characters: a drawing program writes one or two turns. */
const LONGEST_TRANSFORM = 1000

function transformOf(text = ''): Matrix {
  if (text.length > LONGEST_TRANSFORM) refuse('transform')
  let matrix: Matrix = [1, 0, 0, 1, 0, 0]
  for (const [, name, inner] of text.matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const n = inner!
      .trim()
      .split(/[\s,]+/)
      .map(Number)
    if (!n.every(Number.isFinite)) refuse('transform')
    matrix = times(matrix, oneTransform(name!, n))
  }
  return matrix
}

function oneTransform(name: string, [a = 0, b, c, d, e, f]: readonly number[]): Matrix {
  const turn = (a * Math.PI) / 180
  switch (name) {
    case 'matrix':
      return [a, b ?? 0, c ?? 0, d ?? 0, e ?? 0, f ?? 0]
    case 'translate':
      return [1, 0, 0, 1, a, b ?? 0]
    case 'scale':
      return [a, 0, 0, b ?? a, 0, 0]
    case 'rotate': {
      const about: Matrix = [1, 0, 0, 1, b ?? 0, c ?? 0]
      return times(times(about, [Math.cos(turn), Math.sin(turn), -Math.sin(turn), Math.cos(turn), 0, 0]), [
        1,
        0,
        0,
        1,
        -(b ?? 0),
        -(c ?? 0),
      ])
    }
    default:
      return refuse(`transform ${name}`)
  }
}
