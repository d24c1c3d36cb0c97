import type { z } from 'zod'
import {
  captureSchema,
  channelSchema,
  engineSchema,
  instrumentSchema,
  jobSchema,
  reviewSchema,
  timeSchema,
  type ChannelEntry,
  type Engine,
  type Job,
  type ReviewEntry,
  type Stage,
} from './schema.ts'
import { valueAt } from './schema-problems.ts'
import type { KeyPath } from './yaml-document.ts'

/** A channel that is valid by itself. */
export interface ChannelPart {
  path: KeyPath
  entry: ChannelEntry
}

/** A capture or trace as far as it is valid. */
export interface RecordingPart {
  kind: 'captures' | 'traces'
  path: KeyPath
  time: z.infer<typeof timeSchema> | undefined
  taken: string | undefined
  stage: Stage | undefined
  channels: readonly ChannelPart[]
  /** False where a channel is left out because it is not valid: nothing may then be concluded from what is missing. */
  whole: boolean
}

/**
 * The parts of job.yaml that are valid by themselves, so that a mistake in one does not hide what is wrong with another.
 */
export interface JobParts {
  workOrder: string | undefined
  opened: string | undefined
  closed: string | undefined
  vin: string | undefined
  engine: Engine | undefined
  /** Undefined where it is left out or not valid; `instrumentGiven` tells which. */
  instrument: Job['instrument']
  instrumentGiven: boolean
  recordings: readonly RecordingPart[]
  reviews: readonly { path: KeyPath; entry: ReviewEntry }[]
  /** Every file named, valid as a text. */
  files: readonly { kind: 'captures' | 'traces' | 'photos'; path: KeyPath; file: string }[]
}

/** Takes the valid parts out of the plain data of job.yaml. */
export function partsOf(data: unknown): JobParts {
  const { shape } = jobSchema
  return {
    workOrder: valid(shape.work_order, valueAt(data, ['work_order'])),
    opened: valid(shape.opened, valueAt(data, ['opened'])),
    closed: valid(shape.closed, valueAt(data, ['closed'])),
    vin: valid(shape.vehicle.shape.vin, valueAt(data, ['vehicle', 'vin'])),
    engine: valid(engineSchema, valueAt(data, ['engine'])),
    instrument: valid(instrumentSchema, valueAt(data, ['instrument'])),
    instrumentGiven: valueAt(data, ['instrument']) !== undefined,
    recordings: (['captures', 'traces'] as const).flatMap((kind) =>
      entries(data, [kind]).map(({ path, value }) => recordingPart(kind, path, value)),
    ),
    reviews: entries(data, ['review']).flatMap(({ path, value }) => {
      const entry = valid(reviewSchema, value)
      return entry ? [{ path, entry }] : []
    }),
    files: (['captures', 'traces', 'photos'] as const).flatMap((kind) => filesOf(kind, data)),
  }
}

function recordingPart(kind: RecordingPart['kind'], path: KeyPath, value: unknown): RecordingPart {
  const listed = entries(value, ['channels'])
  const channels = listed.flatMap(({ path: inner, value: channel }) => {
    const entry = valid(channelSchema, channel)
    return entry ? [{ path: [...path, ...inner], entry }] : []
  })
  return {
    kind,
    path,
    channels,
    time: valid(timeSchema, valueAt(value, ['time'])),
    taken: valid(captureSchema.shape.taken, valueAt(value, ['taken'])),
    stage: valid(captureSchema.shape.stage, valueAt(value, ['stage'])),
    whole: channels.length === listed.length && listed.length > 0,
  }
}

function filesOf(kind: 'captures' | 'traces' | 'photos', data: unknown): JobParts['files'] {
  return entries(data, [kind]).flatMap(({ path, value }) => {
    const file = valid(captureSchema.shape.file, valueAt(value, ['file']))
    return file === undefined ? [] : [{ kind, path: [...path, 'file'], file }]
  })
}

/** The entries of a list, each with its path; none where there is no list. */
function entries(data: unknown, path: KeyPath): { path: KeyPath; value: unknown }[] {
  const list = valueAt(data, path)
  return Array.isArray(list) ? list.map((value: unknown, i) => ({ path: [...path, i], value })) : []
}

function valid<S extends z.ZodType>(schema: S, value: unknown): z.output<S> | undefined {
  const read = schema.safeParse(value)
  return read.success ? read.data : undefined
}
