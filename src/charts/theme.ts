/** Looks shared by the charts and the report. Words, shapes, dashes and weights carry the meaning; colour never does so alone. */

/** The one accent: a deep plum. Contrast on white 10:1; printed in grey it is nearly black. */
export const ACCENT = '#652a57'
/** Text and axes. */
export const INK = '#2a2725'
/** Second rank: notes, ticks, other cylinders. Contrast on white 5.4:1. */
export const QUIET = '#6b645e'
/** Context lines behind the ones that matter. Contrast on white 3.6:1. */
export const FAINT = '#8f867e'
/** Grid lines. */
export const HAIR = '#dcd6d0'
/** Bands. */
export const WASH = '#efebe6'
/** Ground of the page, for marks that stand on top of lines. */
export const PAPER = '#ffffff'

/** Family of the embedded font, as registered with the PDF and named in specs. */
export const FONT = 'Source Sans 3'
/** The same with fallbacks, for SVG files read without the font. */
export const FONT_STACK =
  "'Source Sans 3', 'Source Sans Pro', 'Segoe UI', 'Liberation Sans', Arial, sans-serif"

/** Sizes of text in charts, pt. */
export const TEXT_PT = 8
export const SMALL_PT = 7
/** Weight of emphasised text; the family's semibold. */
export const STRONG = 600

/** Width of a full-width chart: A4 less two margins of 20 mm. */
export const FULL_WIDTH_PT = 482
/** White between charts side by side. */
export const BETWEEN_PT = 20
/** Widths of two charts that share a row: the wider one has words at its right. */
export const WIDER_PT = 272
export const NARROWER_PT = FULL_WIDTH_PT - BETWEEN_PT - WIDER_PT

/** Defaults of Vega specs written by hand. */
export const VEGA_CONFIG = {
  background: null,
  text: { font: FONT, fontSize: TEXT_PT, fill: INK },
  legend: { labelFont: FONT, labelColor: INK },
  axis: {
    labelFont: FONT,
    labelFontSize: SMALL_PT,
    labelColor: INK,
    labelPadding: 4,
    gridColor: HAIR,
    gridWidth: 0.5,
  },
}

/** Defaults of Vega-Lite specs. Nothing is cut short: limits on labels and titles are off. The chart's one description is its alt text. */
export const VEGA_LITE_CONFIG = {
  aria: false,
  background: undefined,
  font: FONT,
  view: { stroke: null },
  text: { font: FONT, fontSize: TEXT_PT, fill: INK },
  axis: {
    labelFont: FONT,
    labelFontSize: TEXT_PT,
    labelColor: INK,
    labelLimit: 0,
    labelSeparation: 6,
    labelPadding: 4,
    titleFont: FONT,
    titleFontSize: TEXT_PT,
    titleFontWeight: 400,
    titleColor: QUIET,
    titleLimit: 0,
    titlePadding: 6,
    domainColor: QUIET,
    domainWidth: 0.6,
    tickColor: QUIET,
    tickWidth: 0.6,
    tickSize: 3,
    gridColor: HAIR,
    gridWidth: 0.5,
  },
  axisX: { labelFontSize: SMALL_PT },
} as const
