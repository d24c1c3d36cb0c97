import { momentsMeant } from '../job/local-time.ts'
import { sampleRateOf } from '../units/sample-rate.ts'
import type { Dialect } from './capture.ts'
import { splitRow, type Separator } from './split-row.ts'
import { headLines, type TextHead } from './text-head.ts'

/** What the lines above the data say of the recording, in the words recorders use, whatever their language. */
export interface PreambleFacts {
  /** Samples a second, with the line that says so. */
  rate: { hz: number; line: number; text: string } | undefined
  /** What one count of a channel is, in the order of the lines: the channel's number where the line has one. */
  scales: readonly { channel: number | undefined; perCount: number; unit: string; line: number }[]
  /** When it was recorded, ISO 8601 without a zone; undefined where none is written, or it could be two days. */
  taken: string | undefined
}

/** `Sample interval`, `Abtastintervall`, `période d'échantillonnage`, `intervalo de muestreo`, `passo`, `x increment`, `dt`, `time between samples`. */
const INTERVAL =
  /(?:interval|intervall|intervalle|intervalo|abtastzeit|period\w*|p\u00e9riode|per[i\u00ed]odo|time\s*(?:step|base\s*step)|zeitschritt|pas\s+de\s+temps|paso|passo\s+(?:di\s+)?(?:tempo|temporale|campionamento)|(?:time|zeit|temps|dur[e\u00e9]e|tiempo|tempo)\s+(?:between|zwischen|entre|tra|fra)|increment\w*|inkrement\w*|incr\u00e9ment\w*|\bx?incr?\b|\u0394\s*t|\bdelta\s*t\b|\bdt\b)/i
/** `Sample rate`, `Abtastrate`, `fréquence d'échantillonnage`, `frecuencia de muestreo`, `frequenza di campionamento`, `acquisition rate`. */
const RATE =
  /(?:sampl\w*[\s_-]*(?:rate|freq\w*|speed)|(?:acqui\w+|record\w*)\s+(?:rate|freq\w*)|(?:abtast|erfassungs|aufnahme|mess)(?:rate|frequenz)|(?:fr[e\u00e9]quence|taux|cadence)\s*d['\u2019e]\s*(?:.{0,3}chantillonnage|acquisition)|(?:frecuencia|tasa|velocidad)\s+de\s+(?:muestreo|adquisici[o\u00f3]n)|(?:frequenza|cadenza|tasso|velocit[a\u00e0])\s+di\s+(?:campionamento|acquisizione)|\bfs\b|samples?\s*(?:\/|per)\s*s)/i
const FIGURE = String.raw`[-+]?(?:\d+(?:[.,]\d+)?|\.\d+)(?:[eE][-+]?\d+)?`
const VALUE = new RegExp(`(${FIGURE})[\\s;,"\\t]*([a-zA-Z\u00b5\u03bc/0-9 ]*)`)
const IN_BRACKETS = /[([]\s*([a-zA-Z\u00b5\u03bc/ ]+?)\s*[)\]]/
/** A rate by its unit alone, whatever stands before it. */
const BY_UNIT = new RegExp(`(${FIGURE})\\s*([kKMG]?(?:Sa?/s|sps))\\b`)
/** Rates of recorders of ignition; a figure beyond is of something else. */
const BOUNDS_HZ = { least: 1e3, most: 1e9 } as const
/** An interval without a unit is in seconds where it is so short. */
const MOST_BARE_INTERVAL_S = 1e-3

/** Reads the lines above the data, header left out. */
export function preambleOf({ head, dialect }: { head: TextHead; dialect: Dialect }): PreambleFacts {
  const lines = headLines(head, dialect.lineEnd.charCodeAt(0)).filter((l) => l.number < dialect.dataLine)
  const rates = lines.flatMap(({ text, number }, i) => {
    const hz =
      usual(rateIn(text)) ??
      usual(rateIn(ungrouped(text))) ??
      usual(rateBelow(text, lines[i + 1]?.text, dialect.separator))
    return hz === undefined ? [] : [{ hz, line: number, text: text.trim() }]
  })
  return {
    rate: agreed(rates),
    scales: scalesIn(lines, dialect.separator),
    taken: takenIn(lines.map(({ text }) => text)),
  }
}

const usual = (hz: number | undefined): number | undefined =>
  hz !== undefined && hz >= BOUNDS_HZ.least && hz <= BOUNDS_HZ.most ? hz : undefined

/** `200.000 Hz` and `200 000 Hz` without the marks between thousands: asked only where the figure as it stands is no rate. */
const ungrouped = (line: string): string =>
  line.replace(/(?<![\d.,])\d{1,3}(?:[ .,'\u2019\u00a0\u202f]\d{3})+(?![\d.,])/g, (figure) =>
    figure.replace(/\D/g, ''),
  )

/** Two lines that say the same are one; two that contradict each other say nothing. */
const agreed = (rates: readonly NonNullable<PreambleFacts['rate']>[]): PreambleFacts['rate'] =>
  rates.every(({ hz }) => Math.abs(hz / rates[0]!.hz - 1) < 0.001) ? rates[0] : undefined

/** The rate a line states: by the unit of its figure, or by its label. */
function rateIn(line: string): number | undefined {
  const byUnit = BY_UNIT.exec(line)
  if (byUnit) return sampleRateOf(`${byUnit[1]} ${byUnit[2]}`)
  const label = INTERVAL.exec(line) ?? RATE.exec(line)
  if (!label) return undefined
  const rest = line.slice(label.index + label[0].length)
  const value = VALUE.exec(rest)
  if (!value) return undefined
  const before = IN_BRACKETS.exec(line.slice(0, label.index + label[0].length + value.index))
  return meant(
    value[1]!,
    { after: value[2]!.trim().split(/\s{2,}/)[0]!, before: before?.[1] },
    INTERVAL.test(line),
  )
}

function meant(
  figure: string,
  unit: { after: string; before: string | undefined },
  isInterval: boolean,
): number | undefined {
  const said = sampleRateOf(`${figure} ${unit.after}`) ?? sampleRateOf(`${figure} ${unit.before ?? ''}`)
  const bare = unit.after === '' && unit.before === undefined
  const value = Number(figure.replace(',', '.'))
  if (isInterval) return bare ? (value > 0 && value < MOST_BARE_INTERVAL_S ? 1 / value : undefined) : said
  return said
}

/** Names on one line and figures on the next, as some recorders write their settings. */
function rateBelow(line: string, next: string | undefined, separator: Separator): number | undefined {
  if (next === undefined) return undefined
  const names = splitRow(line, separator)
  const at = names.findIndex((name) => INTERVAL.test(name) || RATE.test(name))
  const value = at < 0 ? undefined : splitRow(next, separator)[at]
  if (value === undefined || !new RegExp(`^${FIGURE}$`).test(value)) return undefined
  return meant(value, { after: '', before: IN_BRACKETS.exec(names[at]!)?.[1] }, INTERVAL.test(names[at]!))
}

const SCALE_WORD = /scal|skal|\u00e9chelle|escala|factor|faktor|facteur|fattore|multipl/i
const UNIT_WORD = /^(?:y[\s_-]*)?(?:units?|einheit\w*|unit[e\u00e9\u00e0]s?|unidad\w*)\b/i
/** A figure with an electrical unit, and what of a recorder it is for. */
const PER_COUNT = new RegExp(
  String.raw`(${FIGURE})\s*[;,\t]?\s*(kV|mV|V|mA|A)(?![a-zA-Z])\s*(?:/|per|pro|par|por|a)?\s*(counts?|bits?|lsb|digits?|steps?|pas|paso|schritte?)?`,
  'gi',
)
const CHANNEL = /(?:ch(?:annel)?|kanal|canale?|voie)\s*\.?\s*(\d{1,2}|[A-H])\b/i
const UNITS: readonly string[] = ['kV', 'mV', 'V', 'mA', 'A']

type Scale = PreambleFacts['scales'][number]
type Line = { text: string; number: number }
type Row = { cells: readonly string[]; number: number }

/**
 * What one count of a channel is: on a line of its own, on one line for all channels in turn, or in a small table with
 * the scales and units in rows or in columns.
 */
function scalesIn(lines: readonly Line[], separator: Separator): Scale[] {
  const own = lines.flatMap(scaleIn)
  if (own.length > 0) return own
  const rows = lines.map(({ text, number }) => ({ cells: splitRow(text, separator), number }))
  return [...scaleRow(rows), ...scaleTable(rows)]
}

function scaleIn({ text, number }: Line): Scale[] {
  if (/div/i.test(text)) return [] // of the screen
  const worded = SCALE_WORD.test(text)
  const found = [...text.matchAll(PER_COUNT)].filter((each) => worded || each[3] !== undefined)
  const channel = channelIn(text)
  return found.map((each, i) => ({
    channel: found.length > 1 ? i + 1 : channel,
    perCount: figureOf(each[1]!),
    unit: UNITS.find((unit) => unit.toLowerCase() === each[2]!.toLowerCase())!,
    line: number,
  }))
}

function channelIn(text: string): number | undefined {
  const named = CHANNEL.exec(text)?.[1]
  if (named === undefined) return undefined
  return /\d/.test(named) ? Number(named) : named.toUpperCase().charCodeAt(0) - 64
}

const figureOf = (written: string): number => Number(written.replace(',', '.'))
const isFigure = (cell: string): boolean => new RegExp(`^${FIGURE}$`).test(cell)

/** `Scale;0,01;0,005` and, on another line, `Unit;kV;V`. */
function scaleRow(rows: readonly Row[]): Scale[] {
  const scale = rows.find(({ cells }) => SCALE_WORD.test(cells[0]!) && cells.slice(1).some(isFigure))
  const unit = rows.find(({ cells }) => UNIT_WORD.test(cells[0]!) && cells.some((c) => UNITS.includes(c)))
  if (!scale || !unit) return []
  return scale.cells
    .flatMap((cell, i) => (i > 0 && isFigure(cell) && UNITS.includes(unit.cells[i] ?? '') ? [i] : []))
    .map((at, i) => ({
      channel: i + 1,
      perCount: figureOf(scale.cells[at]!),
      unit: unit.cells[at]!,
      line: scale.number,
    }))
}

/** A line of names, one of them of a scale and one of a unit, and below it a line a channel. */
function scaleTable(rows: readonly Row[]): Scale[] {
  const at = rows.findIndex(
    ({ cells }) => cells.some((c) => SCALE_WORD.test(c)) && cells.some((c) => UNIT_WORD.test(c)),
  )
  if (at < 0) return []
  const names = rows[at]!.cells
  const [scale, unit] = [SCALE_WORD, UNIT_WORD].map((word) => names.findIndex((name) => word.test(name)))
  const below = rows.slice(at + 1)
  const end = below.findIndex(
    ({ cells }) => !isFigure(cells[scale!] ?? '') || !UNITS.includes(cells[unit!] ?? ''),
  )
  return below
    .slice(0, end < 0 ? below.length : end)
    .map(({ cells, number }, i) => ({
      channel: channelIn(cells.join(' ')) ?? i + 1,
      perCount: figureOf(cells[scale!]!),
      unit: cells[unit!]!,
      line: number,
    }))
}

const DATE = /(?<![\d.])(\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[./]\d{1,2}[./]\d{4})(?![\d.])/
const TIME = /(?<![\d:])(\d{1,2}:\d{2}(?::\d{2})?(?:\s*[ap]\.?m\.?)?)(?![\d:])/i

/** A date and a time of day, on one line or two. */
function takenIn(lines: readonly string[]): string | undefined {
  const date = lines.map((line) => DATE.exec(line)?.[1]).find((found) => found !== undefined)
  const time = lines
    .map((line) => TIME.exec(line.replace(DATE, ' '))?.[1])
    .find((found) => found !== undefined)
  const moments = date === undefined || time === undefined ? [] : momentsMeant(`${date} ${time}`)
  return moments.length === 1 ? moments[0] : undefined
}
