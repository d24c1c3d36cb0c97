/** One step of an outline in absolute coordinates: M and L hold one point, C three, Z none. */
export type PathStep =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z']

const COUNTS: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
  z: 0,
}

/** Where the pen stands, where its outline began, and the last handle, for smooth curves. */
interface Pen {
  x: number
  y: number
  startX: number
  startY: number
  handle: readonly ['c' | 'q', number, number] | undefined
}

/**
 * The steps of a path's `d`, or undefined where it does not follow the grammar.
 * @source SVG 1.1 (second edition), 8.3 Path data
 */
export function readSvgPath(d: string): PathStep[] | undefined {
  const steps: PathStep[] = []
  const pen: Pen = { x: 0, y: 0, startX: 0, startY: 0, handle: undefined }
  for (const [, letter, text] of d.matchAll(/([a-z])([^a-df-z]*)/gi)) {
    const command = letter!.toLowerCase()
    const numbers = numbersOf(text!, command)
    const count = COUNTS[command]
    if (!numbers || count === undefined || (steps.length === 0 && command !== 'm')) return undefined
    if (count === 0 ? numbers.length > 0 : numbers.length === 0 || numbers.length % count !== 0)
      return undefined
    for (let at = 0; at === 0 || at < numbers.length; at += Math.max(1, count)) {
      const isRelative = letter === command
      steps.push(
        ...stepOf(
          command === 'm' && at > 0 ? 'l' : command,
          absolute(command, numbers.slice(at, at + count), { pen, isRelative }),
          pen,
        ),
      )
    }
  }
  return /^[\s\d.,+\-a-z]*$/i.test(d) && steps.length > 0 ? steps : undefined
}

/** Numbers of a command; the two flags of an arc may stand without a gap. */
function numbersOf(text: string, command: string): number[] | undefined {
  const number = '[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:e[+-]?\\d+)?'
  const arc = new RegExp(
    `\\s*(${number})[\\s,]*(${number})[\\s,]*(${number})[\\s,]*([01])[\\s,]*([01])[\\s,]*(${number})[\\s,]*(${number})[\\s,]*`,
    'giy',
  )
  if (command === 'a') {
    const found = [...text.matchAll(arc)]
    return found.reduce((length, match) => length + match[0].length, 0) === text.length
      ? found.flatMap((match) => match.slice(1).map(Number))
      : undefined
  }
  const rest = text.replace(new RegExp(number, 'gi'), '').replace(/[\s,]/g, '')
  return rest === '' ? (text.match(new RegExp(number, 'gi')) ?? []).map(Number) : undefined
}

function absolute(
  command: string,
  numbers: readonly number[],
  { pen, isRelative }: { pen: Pen; isRelative: boolean },
): number[] {
  if (!isRelative) return [...numbers]
  if (command === 'h') return [numbers[0]! + pen.x]
  if (command === 'v') return [numbers[0]! + pen.y]
  const from = command === 'a' ? 5 : 0
  return numbers.map((value, i) => (i < from ? value : value + ((i - from) % 2 === 0 ? pen.x : pen.y)))
}

function stepOf(command: string, n: readonly number[], pen: Pen): PathStep[] {
  const { x, y } = pen
  switch (command) {
    case 'z':
      Object.assign(pen, { x: pen.startX, y: pen.startY, handle: undefined })
      return [['Z']]
    case 'm':
      Object.assign(pen, { startX: n[0], startY: n[1] })
      return [moved(pen, ['M', n[0]!, n[1]!])]
    case 'l':
      return [moved(pen, ['L', n[0]!, n[1]!])]
    case 'h':
      return [moved(pen, ['L', n[0]!, y])]
    case 'v':
      return [moved(pen, ['L', x, n[0]!])]
    case 'c':
      return [curved(pen, n, 'c')]
    case 's':
      return [curved(pen, [...mirrored(pen, 'c'), ...n], 'c')]
    case 'q':
      return [quadratic(pen, n)]
    case 't':
      return [quadratic(pen, [...mirrored(pen, 'q'), ...n])]
    default:
      return arcSteps(pen, n)
  }
}

function moved(pen: Pen, step: readonly ['M' | 'L', number, number]): PathStep {
  Object.assign(pen, { x: step[1], y: step[2], handle: undefined })
  return step
}

function curved(
  pen: Pen,
  [a, b, c, d, e, f]: readonly number[],
  kind: 'c' | 'q',
  handle: readonly number[] = [c!, d!],
): PathStep {
  Object.assign(pen, { x: e, y: f, handle: [kind, handle[0], handle[1]] })
  return ['C', a!, b!, c!, d!, e!, f!]
}

function quadratic(pen: Pen, [cx, cy, x, y]: readonly number[]): PathStep {
  const third = (from: number, to: number) => from + (2 / 3) * (to - from)
  return curved(pen, [third(pen.x, cx!), third(pen.y, cy!), third(x!, cx!), third(y!, cy!), x!, y!], 'q', [
    cx!,
    cy!,
  ])
}

const mirrored = ({ x, y, handle }: Pen, kind: 'c' | 'q'): [number, number] =>
  handle?.[0] === kind ? [2 * x - handle[1], 2 * y - handle[2]] : [x, y]

/** An elliptical arc as curves of at most a quarter turn. @source SVG 1.1, F.6.5 and F.6.6 (endpoint to centre) */
function arcSteps(pen: Pen, [rx0, ry0, turned, large, sweep, x2, y2]: readonly number[]): PathStep[] {
  const { x: x1, y: y1 } = pen
  if (rx0 === 0 || ry0 === 0 || (x1 === x2 && y1 === y2)) return [moved(pen, ['L', x2!, y2!])]
  const [cos, sin] = [Math.cos((turned! * Math.PI) / 180), Math.sin((turned! * Math.PI) / 180)]
  const [hx, hy] = [(x1 - x2!) / 2, (y1 - y2!) / 2]
  const [px, py] = [cos * hx + sin * hy, cos * hy - sin * hx]
  const grow = Math.max(1, Math.sqrt((px / rx0!) ** 2 + (py / ry0!) ** 2))
  const [rx, ry] = [Math.abs(rx0!) * grow, Math.abs(ry0!) * grow]
  const under =
    Math.max(0, (rx * ry) ** 2 - (rx * py) ** 2 - (ry * px) ** 2) / ((rx * py) ** 2 + (ry * px) ** 2)
  const factor = (large === sweep ? -1 : 1) * Math.sqrt(under)
  const [mx, my] = [(factor * rx * py) / ry, (-factor * ry * px) / rx]
  const [cx, cy] = [cos * mx - sin * my + (x1 + x2!) / 2, sin * mx + cos * my + (y1 + y2!) / 2]
  const from = Math.atan2((py - my) / ry, (px - mx) / rx)
  let turn = Math.atan2((-py - my) / ry, (-px - mx) / rx) - from
  if (sweep === 1 && turn < 0) turn += 2 * Math.PI
  if (sweep === 0 && turn > 0) turn -= 2 * Math.PI
  const parts = Math.max(1, Math.ceil(Math.abs(turn) / (Math.PI / 2) - 1e-9))
  const handle = (4 / 3) * Math.tan(turn / parts / 4)
  const at = (angle: number, along: number): [number, number] => {
    const [u, v] = [
      rx * (Math.cos(angle) - along * Math.sin(angle)),
      ry * (Math.sin(angle) + along * Math.cos(angle)),
    ]
    return [cx + cos * u - sin * v, cy + sin * u + cos * v]
  }
  return Array.from({ length: parts }, (_, i): PathStep => {
    const [a, b] = [from + (turn * i) / parts, from + (turn * (i + 1)) / parts]
    return curved(
      pen,
      [...at(a, handle), ...at(b, -handle), ...(i === parts - 1 ? [x2!, y2!] : at(b, 0))],
      'c',
    )
  }).map((step) => {
    pen.handle = undefined
    return step
  })
}
