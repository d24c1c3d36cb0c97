import { rangeOf } from './look-at-column.ts'

/** What can be drawn of a file: columns on one time axis. */
export interface Drawable {
  /** Undefined where rows are not known to stand evenly apart. */
  sampleS: number | undefined
  columns: readonly { index: number; name: string; data: Float32Array }[]
  /** Events and sync pulses from the first row, s: they choose the stretch that is drawn. */
  eventsS: readonly number[]
  pulsesS: readonly number[]
}

/** The rows drawn, first inclusive, last exclusive. */
export interface Stretch {
  from: number
  to: number
}

/** Events drawn where no sync pulse shows a whole cycle. */
const EVENTS_SHOWN = 4
/** Columns of a file that are drawn at most, so that a drawing stays small. */
export const MOST_DRAWN = 4

/** One engine cycle where sync pulses show one, else a few events, else everything. */
export function stretchOf({ sampleS, columns, eventsS, pulsesS }: Drawable): Stretch {
  const rows = columns[0]?.data.length ?? 0
  const mark =
    pulsesS.length >= 2
      ? ([pulsesS[0]!, pulsesS[1]!] as const)
      : eventsS.length > EVENTS_SHOWN
        ? ([eventsS[0]!, eventsS[EVENTS_SHOWN]!] as const)
        : undefined
  if (sampleS === undefined || mark === undefined) return { from: 0, to: rows }
  const lead = 0.08 * (mark[1] - mark[0])
  return {
    from: Math.max(0, Math.floor((mark[0] - lead) / sampleS)),
    to: Math.min(rows, Math.ceil((mark[1] + lead) / sampleS)),
  }
}

/** Room for a drawing in characters. */
export interface Room {
  width: number
  height: number
}

/** Lowest and highest value of each of `count` parts of a stretch; parts without a row repeat the last. */
function envelope(data: Float32Array, { from, to }: Stretch, count: number): [number, number][] {
  const parts: [number, number][] = []
  for (let part = 0; part < count; part++) {
    const first = from + Math.floor(((to - from) * part) / count)
    const last = Math.max(first + 1, from + Math.floor(((to - from) * (part + 1)) / count))
    // One row of the part before is taken along, so that neighbouring parts join.
    parts.push(rangeOf(data.subarray(Math.max(from, first - 1), Math.min(to, last))))
  }
  return parts
}

/** Bits of the eight dots of a braille sign, by row, left then right (Unicode 2800 to 28FF). */
const DOTS: readonly (readonly [number, number])[] = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
]

/**
 * Draws a column as lines of text: braille signs, two by four dots each, or plain ASCII.
 * @returns shape (height), each `width` characters; blanks for a stretch without rows
 */
export function drawColumn(
  data: Float32Array,
  stretch: Stretch,
  { room, plain }: { room: Room; plain: boolean },
): string[] {
  const [across, down] = plain ? [room.width, room.height] : [2 * room.width, 4 * room.height]
  const [low, high] = rangeOf(data.subarray(stretch.from, stretch.to))
  const dots = Array.from({ length: down }, () => new Uint8Array(across))
  if (low <= high) {
    const rowOf = (value: number) =>
      high > low ? Math.round(((high - value) / (high - low)) * (down - 1)) : Math.floor(down / 2)
    envelope(data, stretch, across).forEach(([least, most], x) => {
      if (least <= most) for (let y = rowOf(most); y <= rowOf(least); y++) dots[y]![x] = 1
    })
  }
  return plain
    ? dots.map((line) => [...line].map((dot) => (dot ? '*' : ' ')).join(''))
    : brailleLines(dots, room)
}

function brailleLines(dots: readonly Uint8Array[], { width, height }: Room): string[] {
  return Array.from({ length: height }, (_, line) =>
    Array.from({ length: width }, (_, cell) => {
      const bits = DOTS.reduce(
        (sum, [left, right], y) =>
          sum + (dots[4 * line + y]![2 * cell] ? left : 0) + (dots[4 * line + y]![2 * cell + 1] ? right : 0),
        0,
      )
      return String.fromCodePoint(0x2800 + bits)
    }).join(''),
  )
}
