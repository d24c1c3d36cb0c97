import type { View } from 'vega'
import type { ChartSpec } from './chart-plan.ts'
import { compileView } from './compile-view.ts'
import { FONT, FONT_STACK, INK, PAPER, STRONG } from './theme.ts'
import { wrapText } from './wrap-text.ts'

const TITLE_PT = 10
const TITLE_LINE_PT = 13
const EDGE_PT = 10

const escaped = (words: string) => words.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`)

function titleOf(spec: ChartSpec): string {
  const title = (spec.usermeta as { title?: unknown } | undefined)?.title
  return typeof title === 'string' ? title : ''
}

/**
 * A chart as an SVG file of its own: title drawn above, title and description for screen readers, white ground,
 * fonts with fallbacks, size in pt. The same spec gives the same text on any machine.
 */
export async function renderSvg(spec: ChartSpec): Promise<string> {
  const view = await compileView(spec)
  try {
    return await svgOfView(view, spec)
  } finally {
    view.finalize()
  }
}

/** The same from a view at hand, for who draws it elsewhere too and need not lay it out twice. */
export async function svgOfView(view: View, spec: ChartSpec): Promise<string> {
  const drawn = await view.toSVG()
  const [, chartWidth, chartHeight] = /^<svg[^>]* width="([\d.]+)" height="([\d.]+)"/.exec(drawn) ?? []
  if (chartWidth === undefined || chartHeight === undefined) throw new Error('chart: no size in the SVG')
  const inner = drawn
    .replace(/^<svg[^>]*>/, '')
    .replace(/<\/svg>\s*$/, '')
    .replaceAll(`font-family="${FONT}"`, `font-family="${FONT_STACK}"`)
  const title = titleOf(spec)
  const lines = title === '' ? [] : wrapText(title, Number(chartWidth), { sizePt: TITLE_PT, face: 'strong' })
  const top = EDGE_PT + lines.length * TITLE_LINE_PT + (lines.length > 0 ? 4 : 0)
  const [width, height] = [Number(chartWidth) + 2 * EDGE_PT, Number(chartHeight) + top + EDGE_PT]
  const heading = lines.map(
    (line, i) =>
      `<text x="${EDGE_PT}" y="${EDGE_PT + TITLE_LINE_PT * i + TITLE_PT}" font-family="${FONT_STACK}" font-size="${TITLE_PT}px" font-weight="${STRONG}" fill="${INK}">${escaped(line)}</text>`,
  )
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${width}pt" height="${height}pt" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    `<desc>${escaped(typeof spec.description === 'string' ? spec.description : '')}</desc>`,
    `<rect width="${width}" height="${height}" fill="${PAPER}"/>`,
    ...heading,
    `<g transform="translate(${EDGE_PT},${top})">${inner}</g>`,
    '</svg>\n',
  ].join('\n')
}
