import { describe, expect, test } from 'vitest'
import { readSvg } from '../../src/pictures/svg-drawing.ts'
import { readSvgPath, type PathStep } from '../../src/pictures/svg-path.ts'

/** Points along an outline, from the steps alone. */
function pointsOf(steps: readonly PathStep[]): [number, number][] {
  let [x, y] = [0, 0]
  return steps.flatMap((step): [number, number][] => {
    if (step[0] === 'Z') return []
    if (step[0] !== 'C') {
      ;[x, y] = [step[1], step[2]]
      return [[x, y]]
    }
    const [, a, b, c, d, e, f] = step
    const [x0, y0] = [x, y]
    const at = (p: readonly [number, number, number, number], t: number) =>
      p[0] * (1 - t) ** 3 + 3 * p[1] * t * (1 - t) ** 2 + 3 * p[2] * t * t * (1 - t) + p[3] * t ** 3
    ;[x, y] = [e, f]
    return Array.from({ length: 8 }, (_, i) => [
      at([x0, a, c, e], (i + 1) / 8),
      at([y0, b, d, f], (i + 1) / 8),
    ])
  })
}

describe('paths (SVG 1.1, 8.3)', () => {
  test.each([
    ['absolute and relative', 'M10 10h20v20l-20,0z', 'M10 10H30V30L10 30Z'],
    ['pairs after a move are lines', 'm1 1 2 0 0 2', 'M1 1L3 1L3 3'],
    ['signs part numbers', 'M1-1L2.5.5', 'M1 -1L2.5 0.5'],
    [
      'a smooth curve mirrors the handle before it',
      'M0 0C0 10 10 10 10 0S20-10 20 0',
      'M0 0C0 10 10 10 10 0C10 -10 20 -10 20 0',
    ],
    ['after closing, the pen is at the start', 'M5 5h10zl1 1', 'M5 5H15ZL6 6'],
  ])('%s', (_, one, other) => {
    const plain = (steps: PathStep[] | undefined) =>
      pointsOf(steps!).map((point) => point.map((v) => Number(v.toFixed(9))))
    const [a, b] = [plain(readSvgPath(one)), plain(readSvgPath(other))]
    expect(a.filter((p, i) => i === 0 || String(p) !== String(a[i - 1]))).toEqual(
      b.filter((p, i) => i === 0 || String(p) !== String(b[i - 1])),
    )
  })

  // A circle of radius 25 about (50, 50), whichever way it is cut: every point lies 25 from the centre.
  test.each([
    'M25 50A25 25 0 1 1 75 50A25 25 0 1 1 25 50',
    'M25 50A25 25 0 0 1 50 25',
    'M25 50a25 25 0 1075 0M25 50',
    'M50 25A25 25 90 1 0 75 50',
  ])('arc %s', (d) => {
    const steps = readSvgPath(d)!
    const end = steps.findLastIndex((step) => step[0] === 'C')
    if (d.includes('1075')) return expect(pointsOf(steps.slice(0, end + 1)).at(-1)).toEqual([100, 50]) // flags and end run together
    for (const [x, y] of pointsOf(steps)) expect(Math.hypot(x - 50, y - 50)).toBeCloseTo(25, 1)
  })
  test('an arc too small for its ends grows (SVG 1.1, F.6.6)', () => {
    for (const [x, y] of pointsOf(readSvgPath('M0 0A1 1 0 0 1 20 0')!))
      expect(Math.hypot(x - 10, y)).toBeCloseTo(10, 1)
  })
  test.each(['', 'L1 1', 'M1', 'M1 1 A1 1 0 2 0 3 3', 'M1 1 X', 'M1 1L1 1 1', 'M1 1 <'])(
    'not a path: "%s"',
    (d) => expect(readSvgPath(d)).toBeUndefined(),
  )
})

const svg = (inner: string, head = 'viewBox="0 0 10 10"') =>
  `<?xml version="1.0"?><!-- invented --><svg xmlns="http://www.w3.org/2000/svg" ${head}><title>t</title>${inner}</svg>`
const found = (text: string) => {
  const look = readSvg(text)
  return look.ok ? 'ok' : look.found
}

describe('drawings', () => {
  test('colours and transforms come down to the shapes', () => {
    const look = readSvg(
      svg(
        '<g fill="#123456" transform="translate(2 3)"><rect width="4" height="5" transform="scale(2)" style="stroke:black;stroke-width:.5"/></g>',
      ),
    )
    if (!look.ok) throw new Error(look.found)
    expect(look.drawing.shapes).toMatchObject([
      { fill: '#123456', stroke: 'black', strokeWidth: 0.5, matrix: [2, 0, 0, 2, 2, 3] },
    ])
  })
  test.each([
    ['text', '<text>A</text>', '<text>'],
    ['a picture', '<image href="http://a.example/x.png"/>', '<image>'],
    ['a script', '<script>x</script>', '<script>'],
    ['a gradient', '<rect width="1" height="1" fill="url(#a)"/>', 'fill="url(#a)"'],
    ['opacity', '<circle r="1" opacity=".5"/>', 'opacity'],
    ['a class', '<circle r="1" class="a"/>', 'class'],
    ['a use', '<use href="#a"/>', '<use>'],
    ['round corners', '<rect width="3" height="3" rx="1"/>', 'rx'],
    ['a link in a style', '<circle r="1" style="fill:url(http://a.example)"/>', 'fill="url(http"'],
  ])('%s is refused by name', (_, inner, name) => expect(found(svg(inner))).toContain(name.replace(/"$/, '')))
  test.each([
    ['a document type', '<!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0 0 1 1"/>'],
    ['open elements', '<svg viewBox="0 0 1 1"><g>'],
    ['crossed elements', '<svg viewBox="0 0 1 1"><g><a></g></a></svg>'],
    ['two roots', '<svg/><svg/>'],
    ['not SVG', '<html/>'],
    ['nothing', ''],
    ['depth without end', '<g>'.repeat(10_000)],
  ])('%s is no drawing', (_, text) => expect(found(text)).toBe('XML'))
  test('without a size it cannot be placed', () => expect(found(svg('', ''))).toBe('viewBox'))

  // Each took minutes, or grew with the square of its length.
  test.each([
    ['a transform of 160 kB', `<path d="M0 0L1 1" transform="${'a'.repeat(160_000)}"/>`, 'transform'],
    [
      'a transform of many turns',
      `<path d="M0 0L1 1" transform="${'rotate(1)'.repeat(20_000)}"/>`,
      'transform',
    ],
    ['a path of digits', `<path d="M${'1'.repeat(200_000)}x"/>`, '<path>'],
    ['a path of signs', `<path d="M0 0${'e'.repeat(200_000)}"/>`, '<path>'],
    ['a tag without an end', `<path ${'a="1" '.repeat(1)}${' '.repeat(200_000)}`, 'XML'],
    ['more elements than a logo has', '<path d="M0 0L1 1"/>'.repeat(50_000), 'XML'],
  ])('%s is refused at once', (_, inner, name) => {
    const start = process.cpuUsage().user
    expect(found(svg(inner))).toBe(name)
    expect((process.cpuUsage().user - start) / 1e3).toBeLessThan(2000)
  })
})
