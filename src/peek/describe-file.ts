import type { FileColumn, FileColumns } from '../capture/read-columns.ts'
import { UNIT_S } from '../capture/columns.ts'
import type { PreambleFacts } from '../capture/preamble.ts'
import type { Drawable } from './draw-columns.ts'
import { likelyUnit, writtenUnit, type TimeGuess } from './guess-time.ts'
import { lookAtColumn, type Look } from './look-at-column.ts'
import type { Peeked, PeekedColumn, PeekedEvents } from './peeked.ts'
import type { ReadLeniently } from './read-leniently.ts'
import { eventsOf, eventsPerPulse } from './secondary.ts'
import { weighRoles, type Weighed } from './weigh-roles.ts'

interface About {
  file: string
  time: TimeGuess
  sampleRateHz: number | undefined
  /** What tells `sampleRateHz`. */
  rateFrom: 'preamble' | 'said'
  preamble: PreambleFacts
}

/** Puts together what a file shows. */
export function describeFile(read: ReadLeniently, about: About): { peeked: Peeked; drawable: Drawable } {
  const { columns: file, even } = read
  const rowsEstimated = file.whole
    ? null
    : Math.round(
        file.rows * Math.max(1, (file.expectedTextBytes - file.dialect.dataOffset) / dataBytes(file)),
      )
  const clock = clockOf(file, { ...about, even, rows: rowsEstimated ?? file.rows })
  const seen = file.columns.map((column) => lookClosely(column, file, clock))
  const rival = strongest(seen, 'sync')
  const told = seen.map((each) =>
    each.weighed.role === 'sync' && each !== rival
      ? { ...each, weighed: { ...each.weighed, sureness: each.weighed.sureness / 2 } }
      : each,
  )
  const pulsesS = rival?.look.pulses?.timesS ?? []
  const found = told.map((each) => withEvents(each, { clock, pulsesS }))
  return {
    peeked: {
      file: about.file,
      fileBytes: file.fileBytes,
      gzip: file.gzip,
      textBytes: file.textBytes,
      whole: file.whole,
      dialect: file.dialect,
      rows: file.rows,
      rowsEstimated,
      preamble: about.preamble,
      clock,
      columns: inFileOrder(
        found.map((f) => f.column),
        file,
        about.time,
      ),
      overRange: read.overRange,
      problems: [...read.refusals, ...file.warnings],
    },
    drawable: {
      sampleS: clock?.even ? clock.sampleS : undefined,
      columns: file.columns,
      eventsS: found.find((f) => f.atS.length > 0)?.atS ?? [],
      pulsesS,
    },
  }
}

const dataBytes = ({ textBytes, dialect }: FileColumns): number => Math.max(1, textBytes - dialect.dataOffset)

/** The clock, once the unit of its column is settled; null where rows were only counted. */
function clockOf(
  file: FileColumns,
  { time, sampleRateHz, rateFrom, even, rows }: About & { even: boolean; rows: number },
): Peeked['clock'] {
  if (sampleRateHz !== undefined)
    return {
      from: rateFrom,
      sampleS: 1 / sampleRateHz,
      durationS: rows / sampleRateHz,
      unit: null,
      unitWritten: false,
      even: true,
    }
  if (time.kind !== 'column') return null
  const unit = time.unit ?? likelyUnit(file.sampleS, rows)
  const sampleS = file.sampleS * (time.unit === undefined ? UNIT_S[unit] : 1)
  return {
    from: 'column',
    sampleS,
    durationS: rows * sampleS,
    unit,
    unitWritten: time.unit !== undefined,
    even,
  }
}

interface Seen {
  column: FileColumn
  unit: string | undefined
  look: Look
  weighed: Weighed
}

function lookClosely(column: FileColumn, { dialect }: FileColumns, clock: Peeked['clock']): Seen {
  const unit = writtenUnit(dialect, column.index)
  const look = lookAtColumn(column.data, {
    sampleS: clock?.even ? clock.sampleS : undefined,
    quantum: column.quantum,
  })
  return {
    column,
    unit,
    look,
    weighed: weighRoles({ name: dialect.header?.[column.index] ?? '', unit }, look),
  }
}

const strongest = (seen: readonly Seen[], role: Weighed['role']): Seen | undefined =>
  seen
    .filter((s) => s.weighed.role === role)
    .reduce<Seen | undefined>(
      (best, s) => (best && best.weighed.sureness >= s.weighed.sureness ? best : s),
      undefined,
    )

function withEvents(
  seen: Seen,
  { clock, pulsesS }: { clock: Peeked['clock']; pulsesS: readonly number[] },
): { column: PeekedColumn; atS: readonly number[] } {
  const { column, unit, look, weighed } = seen
  const found =
    weighed.role === 'secondary' && look.sparks && clock
      ? eventsOf(column, { sampleS: clock.sampleS, unit })
      : undefined
  const events: PeekedEvents | null = found
    ? { ...found.events, perPulse: eventsPerPulse(found.atS, pulsesS) }
    : null
  const pulses =
    weighed.role === 'sync' && look.pulses
      ? { count: look.pulses.timesS.length, perS: look.pulses.perS }
      : null
  return {
    atS: found?.atS ?? [],
    column: {
      number: column.index + 1,
      name: column.name,
      frames: 1 + column.later.length,
      unit: unit ?? null,
      ...weighed,
      low: look.low,
      high: look.high,
      quantum: column.quantum > 0 ? column.quantum : null,
      bits: bitsOf(column, look),
      clippedSamples: column.clippedSamples,
      events,
      pulses,
    },
  }
}

/** Bits of the recorder by its range, where both its ends show; else those that the figures took. */
function bitsOf({ quantum, limits }: FileColumn, { low, high }: Look): PeekedColumn['bits'] {
  if (!(quantum > 0)) return null
  const whole = limits !== undefined && limits.every(Number.isFinite)
  const [from, to] = whole ? limits : [low, high]
  return { value: Math.log2((to - from) / quantum + 1), of: whole ? 'range' : 'used' }
}

/** Every column of the file, those without figures among them. */
function inFileOrder(
  found: readonly PeekedColumn[],
  { dialect, columns }: FileColumns,
  time: TimeGuess,
): PeekedColumn[] {
  const later = new Set(columns.flatMap((c) => c.later))
  return Array.from({ length: dialect.columns }, (_, index): PeekedColumn => {
    const own = found.find((c) => c.number === index + 1)
    if (own) return own
    const header = dialect.header?.[index]
    const role =
      time.kind !== 'none' && time.index === index
        ? time.kind === 'column'
          ? 'time'
          : 'counter'
        : later.has(index)
          ? 'frame'
          : 'words'
    return {
      number: index + 1,
      name: header || String(index + 1),
      frames: 1,
      unit: writtenUnit(dialect, index) ?? null,
      role,
      sureness: 1,
      because: [],
      low: null,
      high: null,
      quantum: null,
      bits: null,
      clippedSamples: 0,
      events: null,
      pulses: null,
    }
  })
}
