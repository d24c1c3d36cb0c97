import { UNITS_OF } from '../job/checks/channels.ts'
import type { ChannelEntry, Engine } from '../job/schema.ts'
import { sentence, type Sentence } from '../texts/messages.ts'
import {
  indented,
  marked,
  plain,
  quoted,
  type Answers,
  type DraftedFile,
  type DraftLine,
  type EngineGuess,
} from './drafted.ts'
import { stageOf } from './guess-stage.ts'
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

/** One sync channel is all that a capture may have, the surest; beside pickups of their own cylinders only where it counts cycles. */
function channelsOf(file: DraftedFile): PeekedColumn[] {
  const secondaries = secondariesOf(file)
  const own = secondaries.length > 1
  const onceACycle = secondaries.some(
    ({ events }) => events?.perPulse?.count === 1 && events.perPulse.share > 0.8,
  )
  const sync = carrying(file.peeked, 'sync').sort((a, b) => b.sureness - a.sureness)[0]
  const kept = (file.peeked?.columns ?? []).filter(
    (c) =>
      ['secondary', 'primary-voltage', 'primary-current', 'speed'].includes(c.role) ||
      (c === sync && (!own || onceACycle)),
  )
  return isTrace(file) ? kept.filter((c) => c.role === 'speed') : kept
}

/** What is known beside a file. */
export interface AboutJob {
  engine: EngineGuess
  stages: Answers['stages']
  looksRepaired?: Answers['looksRepaired']
  /** Of a repair in the log, where the job has one already. */
  repairedAt?: string | undefined
}

/** Lines of one entry under captures or traces. */
export function draftRecording(file: DraftedFile, about: AboutJob): DraftLine[] {
  const said = about.stages?.get(file.file)
  const of = isTrace(file)
    ? []
    : [
        marked('stage', said ? { value: said, why: undefined } : stageOf(file, about), String),
        marked(
          'condition',
          { value: conditionOf(file) ?? 'idle', why: sentence('new.why.condition') },
          String,
        ),
        marked('engine', { value: 'warm', why: sentence('new.why.warm') }, String),
        marked(
          'taken',
          {
            value: file.taken,
            why:
              file.takenFrom === 'file' ? sentence('new.why.file-date') : sentence('new.why.preamble-date'),
          },
          String,
        ),
      ]
  const words = file.peeked?.overRange ?? []
  return [
    plain(`  - file: ${quoted(file.file)}`),
    ...[
      ...of,
      timeLine(file.peeked),
      ...(words.length > 0
        ? [marked('over_range', { value: words, why: sentence('new.why.over-range') })]
        : []),
      plain('channels:'),
      ...channelsOf(file).map((column) => indented(2, channelLine(column, file, about.engine))),
    ].map((line) => indented(4, line)),
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

function timeLine(peeked: Peeked | undefined): DraftLine {
  const column = peeked?.columns.find((c) => c.role === 'time')
  const clock = peeked?.clock ?? null
  if (column && clock?.unit)
    return {
      text: `time: { column: ${nameOf(column, peeked!)}, unit: ${clock.unit} }`,
      ...(clock.unitWritten ? {} : { why: sentence('new.why.time-unit') }),
    }
  if (!clock) return plain('time: { sample_rate_hz: }')
  const rate = peeked?.preamble.rate
  return {
    text: `time: { sample_rate_hz: ${Number((1 / clock.sampleS).toPrecision(12))} }`,
    ...(clock.from === 'preamble' && rate
      ? { why: sentence('new.why.preamble-rate', { line: rate.line, text: { words: rate.text } }) }
      : {}),
  }
}

/** By name, where the file has a header and the name stands in it once; else by number. */
function nameOf(column: PeekedColumn, { columns, dialect }: Peeked): string {
  const own =
    dialect.header !== undefined &&
    column.name !== '' &&
    columns.filter((c) => c.name === column.name).length === 1
  return own ? quoted(column.name) : String(column.number)
}

function channelLine(column: PeekedColumn, file: DraftedFile, engine: EngineGuess): DraftLine {
  const fitting: readonly string[] = UNITS_OF[column.role as ChannelEntry['carries']]
  const counts = scaleOf(column, file)
  const unit = counts?.unit ?? column.unit
  const written = unit !== null && fitting.includes(unit)
  const scale = counts ? `, scale: ${counts.perCount}` : ''
  const whose =
    column.role === 'secondary' ? seenBy(column, file, engine) : column.role === 'sync' ? ', cylinder: 1' : ''
  const why = becauseOf(column, written)
  return {
    text: `- { column: ${nameOf(column, file.peeked!)}, carries: ${column.role}${whose}, unit: ${written ? unit : fitting[0]}${scale} }`,
    ...(why ? { why } : {}),
  }
}

/** What one count of a column is, where the lines above the data say so of its channel and its figures are whole. */
function scaleOf(
  column: PeekedColumn,
  { peeked }: DraftedFile,
): { perCount: number; unit: string } | undefined {
  const scales = peeked?.preamble.scales ?? []
  if (column.unit !== null || (column.quantum ?? 0) < 1) return undefined
  const signals = (peeked?.columns ?? []).filter((c) => !['time', 'counter', 'words'].includes(c.role))
  const place = signals.indexOf(column) + 1
  const own = scales.filter(({ channel }) => channel === place)
  return own.length === 1
    ? own[0]
    : scales.length === 1 && scales[0]!.channel === undefined
      ? scales[0]
      : undefined
}

/** What of a channel is a guess; nothing where the file says it all. */
function becauseOf(column: PeekedColumn, written: boolean): Sentence | undefined {
  const role = surenessWord(column.sureness) === 'sure'
  if (column.role === 'sync') return sentence('new.why.sync-cylinder')
  if (!role && !written) return sentence('new.why.role-and-unit')
  if (!role) return sentence('new.why.role')
  return written ? undefined : sentence('new.why.unit')
}

/** Cylinder in a name: `cyl 3`, `Zylinder_2`, `coil 4`. */
const IN_NAME =
  /(?:cyl(?:inder|indre)?|zyl(?:inder)?|cil(?:indro)?|coil|spule|bobine|bobina|cop)[ _.-]*(\d{1,2})(?!\d)/i

/** The cylinder whose own pickup a file of one secondary says in its name. */
export function cylinderNamed(file: DraftedFile): number | undefined {
  if (secondariesOf(file).length !== 1 || carrying(file.peeked, 'sync').length > 0) return undefined
  const found = IN_NAME.exec(file.file.replace(/^.*\//, ''))
  return found ? Number(found[1]) : undefined
}

/** All cylinders where a sync tells them apart; else the number in the column's name, the file's, or its place among the pickups. */
function seenBy(column: PeekedColumn, file: DraftedFile, engine: EngineGuess): string {
  const secondaries = secondariesOf(file)
  const several = secondaries.length > 1
  if (!several && carrying(file.peeked, 'sync').length > 0 && isShared(engine.ignition.value))
    return ', cylinders: all'
  const most = engine.cylinders.value ?? 16
  const inColumn = IN_NAME.exec(column.name)?.[1] ?? /(\d{1,2})(?!.*\d)/.exec(column.name)?.[1]
  const numbered = cylinderNamed(file) ?? Number(inColumn ?? Number.NaN)
  const own =
    numbered >= 1 &&
    numbered <= most &&
    secondaries.filter((c) => c.name.includes(String(numbered))).length <= 1
  return `, cylinders: ${own ? numbered : secondaries.indexOf(column) + 1}`
}

const isShared = (ignition: Ignition): boolean => ignition === undefined || ignition === 'distributor'
