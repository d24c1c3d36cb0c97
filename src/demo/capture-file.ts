import { gzipSync } from 'fflate'
import type { SimulatedCapture, SimulatedChannel } from '../model/simulate-capture.ts'

/** How a recorder writes its file. */
export interface FileStyle {
  separator: ',' | ';' | '\t'
  decimal: '.' | ','
  /** Lines before the header; none for most. */
  preamble: readonly string[]
  /** Names and units of the columns, a time column (if any) first. `perUnit`: figures in the file for one kV, or one V of sync. */
  columns: readonly { name: string; unit: string; perUnit: number; decimals: number }[]
  unitsRow: boolean
  /** Undefined: no time column, the rate stands in job.yaml. `perS`: 1 for s, 1000 for ms. */
  time: { name: string; unit: string; perS: number; decimals: number } | undefined
}

const UTF8 = new TextEncoder()
const LINE_FEED = 10
/** Room for one figure; the longest here is a time stamp of a dozen characters. */
const CELL_BYTES = 16

/** Appends figures to one growing run of bytes. */
interface Sink {
  bytes: Uint8Array
  length: number
}

function put(sink: Sink, bytes: Uint8Array): void {
  for (let i = 0; i < bytes.length; i++) sink.bytes[sink.length++] = bytes[i]!
}

function figure(value: number, column: { perUnit: number; decimals: number }, decimal: string): Uint8Array {
  const plain = (value * column.perUnit).toFixed(column.decimals).replace(/^-(0\.?0*)$/, '$1')
  return UTF8.encode(decimal === '.' ? plain : plain.replace('.', decimal))
}

/** A digitised channel has few values: each is turned into text once. */
function cells(
  channel: SimulatedChannel,
  column: FileStyle['columns'][number],
  decimal: string,
): (i: number) => Uint8Array {
  const seen = new Map<number, Uint8Array>()
  return (i) => {
    const value = channel.data[i]!
    const known = seen.get(value)
    if (known !== undefined) return known
    const fresh = figure(value, column, decimal)
    seen.set(value, fresh)
    return fresh
  }
}

function headOf(style: FileStyle): Uint8Array {
  const { separator, time, columns, preamble } = style
  const names = [...(time ? [time.name] : []), ...columns.map((c) => c.name)].join(separator)
  const units = [...(time ? [time.unit] : []), ...columns.map((c) => c.unit)].join(separator)
  return UTF8.encode([...preamble, names, ...(style.unitsRow ? [units] : []), ''].join('\n'))
}

/** Text of a capture in a recorder's style, UTF-8. */
export function captureText(capture: SimulatedCapture, style: FileStyle): Uint8Array {
  const { decimal, time, columns } = style
  const separator = UTF8.encode(style.separator)[0]!
  const head = headOf(style)
  const sink: Sink = {
    bytes: new Uint8Array(head.length + capture.rows * CELL_BYTES * (columns.length + 1)),
    length: 0,
  }
  put(sink, head)
  const readers = capture.channels.map((channel, c) => cells(channel, columns[c]!, decimal))
  for (let i = 0; i < capture.rows; i++) {
    if (time !== undefined) {
      const stampS = capture.timesS?.[i] ?? i * capture.sampleS
      put(sink, figure(stampS, { perUnit: time.perS, decimals: time.decimals }, decimal))
      sink.bytes[sink.length++] = separator
    }
    readers.forEach((read) => {
      put(sink, read(i))
      sink.bytes[sink.length++] = separator
    })
    sink.bytes[sink.length - 1] = LINE_FEED
  }
  return sink.bytes.subarray(0, sink.length)
}

/** The same bytes from the same text everywhere: no time stamp, no name. Level 9 would save 4 % and take three times as long. */
export const packed = (text: Uint8Array): Uint8Array => gzipSync(text, { level: 6, mtime: 0 })
