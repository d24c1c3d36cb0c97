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

/** `Sample interval`, `Abtastintervall`, `période d'échantillonnage`, `intervalo de muestreo`, `x increment`, `dt`. */
const INTERVAL =
  /(?:interval|intervall|intervalle|intervalo|abtastzeit|period\w*|p\u00e9riode|per[i\u00ed]odo|time\s*(?:step|base\s*step)|zeitschritt|pas\s+de\s+temps|paso|increment\w*|inkrement\w*|incr\u00e9ment\w*|\bx?incr?\b|\u0394\s*t|\bdelta\s*t\b|\bdt\b)/i
/** `Sample rate`, `Sampling frequency`, `Abtastrate`, `fréquence d'échantillonnage`, `frecuencia de muestreo`. */
const RATE =
  /(?:sampl\w*[\s_-]*(?:rate|freq\w*|speed)|abtast(?:rate|frequenz)|(?:fr[e\u00e9]quence|taux|cadence)\s*d['\u2019e]\s*.{0,3}chantillonnage|(?:frecuencia|tasa|velocidad)\s+de\s+muestreo|\bfs\b|samples?\s*(?:\/|per)\s*s)/i
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
    const hz = rateIn(text) ?? rateBelow(text, lines[i + 1]?.text, dialect.separator)
    return hz !== undefined && hz >= BOUNDS_HZ.least && hz <= BOUNDS_HZ.most
      ? [{ hz, line: number, text: text.trim() }]
      : []
  })
  return {
    rate: agreed(rates),
    scales: lines.flatMap(scaleIn),
    taken: takenIn(lines.map(({ text }) => text)),
  }
}

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

const SCALE = new RegExp(
  `(?:scale|scaling|skal\\w*|\u00e9chelle|escala|per\\s*(?:count|bit|lsb|digit)).*?(${FIGURE})\\s*(kV|mV|V|mA|A)\\s*(?:/|per|pro|par|por)?\\s*(?:count|bit|lsb|digit|step)?`,
  'i',
)
const CHANNEL = /(?:ch(?:annel)?|kanal|canal|voie)\s*\.?\s*(\d{1,2}|[A-H])\b/i

/** What one count of a channel is, where a line says so. */
function scaleIn({ text, number }: { text: string; number: number }): PreambleFacts['scales'][number][] {
  const found = SCALE.exec(text)
  if (!found) return []
  const named = CHANNEL.exec(text)?.[1]
  const channel =
    named === undefined
      ? undefined
      : /\d/.test(named)
        ? Number(named)
        : named.toUpperCase().charCodeAt(0) - 64
  return [{ channel, perCount: Number(found[1]!.replace(',', '.')), unit: found[2]!, line: number }]
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
