import { UNITS_OF } from '../job/checks/channels.ts'
import type { ChannelEntry, Engine } from '../job/schema.ts'
import { mark, marked, quoted, type DraftedFile, type EngineGuess } from './drafted.ts'
import { surenessWord } from './sureness.ts'
import type { Peeked, PeekedColumn } from './peeked.ts'

type Ignition = Engine['ignition'] | undefined

/** Columns of a file taken for a secondary. */
export const secondariesOf = ({ peeked }: DraftedFile): PeekedColumn[] => carrying(peeked, 'secondary')

const carrying = (peeked: Peeked | undefined, role: PeekedColumn['role']): PeekedColumn[] =>
  (peeked?.columns ?? []).filter((c) => c.role === role)

/** A file with an engine speed and no secondary belongs under traces. */
export const isTrace = (file: DraftedFile): boolean =>
  secondariesOf(file).length === 0 && carrying(file.peeked, 'speed').length > 0

/** One sync channel is all that a capture may have: the surest. */
function channelsOf(file: DraftedFile): PeekedColumn[] {
  const syncs = carrying(file.peeked, 'sync').sort((a, b) => b.sureness - a.sureness)
  const kept = (file.peeked?.columns ?? []).filter(
    (c) => ['secondary', 'primary-voltage', 'primary-current', 'speed'].includes(c.role) || c === syncs[0],
  )
  return isTrace(file) ? kept.filter((c) => c.role === 'speed') : kept
}

/** Lines of one entry under captures or traces. */
export function draftRecording(file: DraftedFile, engine: EngineGuess): string[] {
  const channels = channelsOf(file)
  const about = isTrace(file)
    ? []
    : [
        marked('stage', { value: 'before', why: 'change it for a capture after the repair' }, String),
        marked('condition', { value: conditionOf(file), why: 'by the speed, where it shows' }, String),
        marked('engine', { value: 'warm', why: 'most captures are' }, String),
        marked('taken', { value: file.taken, why: "the file's own date" }, String),
      ]
  const words = file.peeked?.overRange ?? []
  return [
    `  - file: ${quoted(file.file)}`,
    ...[
      ...about,
      timeLine(file.peeked),
      ...(words.length > 0
        ? [marked('over_range', { value: words, why: 'these words stand among the figures' })]
        : []),
      'channels:',
      ...channels.map((column) => `  - ${channelLine(column, file, engine)}`),
    ].map((line) => `    ${line}`),
  ]
}

/** Idle up to here, rpm; 2500 rpm is held within this. */
const IDLE_RPM = 1200
const HELD_RPM: readonly [number, number] = [2200, 2800]

/** By the pulses of a sync (a four-stroke gives one in two turns); undefined where no speed shows or none of the known fits. */
function conditionOf({ peeked }: DraftedFile): string | undefined {
  const pulses = carrying(peeked, 'sync')[0]?.pulses
  if (!pulses) return 'idle'
  const rpm = 120 * pulses.perS
  return rpm <= IDLE_RPM ? 'idle' : rpm >= HELD_RPM[0] && rpm <= HELD_RPM[1] ? '2500 rpm' : undefined
}

function timeLine(peeked: Peeked | undefined): string {
  const column = peeked?.columns.find((c) => c.role === 'time')
  const { clock } = peeked ?? { clock: null }
  if (column && clock?.unit) {
    const why = clock.unitWritten ? undefined : 'the unit is not written; this one gives a usual rate'
    return `time: { column: ${nameOf(column, peeked!)}, unit: ${clock.unit} }${mark(why)}`
  }
  return clock ? `time: { sample_rate_hz: ${1 / clock.sampleS} }` : 'time: { sample_rate_hz: }'
}

/** By name, where the file has a header and the name stands in it once; else by number. */
function nameOf(column: PeekedColumn, { columns, dialect }: Peeked): string {
  const own =
    dialect.header !== undefined &&
    column.name !== '' &&
    columns.filter((c) => c.name === column.name).length === 1
  return own ? quoted(column.name) : String(column.number)
}

function channelLine(column: PeekedColumn, file: DraftedFile, engine: EngineGuess): string {
  const fitting: readonly string[] = UNITS_OF[column.role as ChannelEntry['carries']]
  const written = column.unit !== null && fitting.includes(column.unit)
  const scale = column.events && column.events.scale !== 1 ? `, scale: ${column.events.scale}` : ''
  const whose =
    column.role === 'secondary' ? seenBy(column, file, engine) : column.role === 'sync' ? ', cylinder: 1' : ''
  const reasons = [
    ...(surenessWord(column.sureness) === 'sure' ? [] : ['what it carries']),
    ...(written ? [] : ['unit']),
    ...(scale === '' ? [] : ['scale']),
    ...(column.role === 'secondary' ? ['cylinders'] : []),
    ...(column.role === 'sync' ? ['cylinder'] : []),
  ]
  const entry = `{ column: ${nameOf(column, file.peeked!)}, carries: ${column.role}${whose}, unit: ${written ? column.unit : fitting[0]}${scale} }`
  return entry + mark(reasons.length > 0 ? reasons.join(', ') : undefined)
}

/** All cylinders where a sync tells them apart; else the number in the column's name, or its place among the pickups. */
function seenBy(column: PeekedColumn, file: DraftedFile, engine: EngineGuess): string {
  const secondaries = secondariesOf(file)
  const several = secondaries.length > 1
  if (!several && carrying(file.peeked, 'sync').length > 0 && isShared(engine.ignition.value))
    return ', cylinders: all'
  const numbered = Number(/(\d{1,2})(?!.*\d)/.exec(column.name)?.[1] ?? Number.NaN)
  const most = engine.cylinders.value ?? 16
  const own =
    numbered >= 1 &&
    numbered <= most &&
    secondaries.filter((c) => c.name.includes(String(numbered))).length === 1
  return `, cylinders: ${own ? numbered : secondaries.indexOf(column) + 1}`
}

const isShared = (ignition: Ignition): boolean => ignition === undefined || ignition === 'distributor'
