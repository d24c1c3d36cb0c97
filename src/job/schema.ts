import { z } from 'zod'
import { isDay, isMoment, ISO_DATE, ISO_TIME } from './iso-time.ts'

/**
 * The one schema of job.yaml. The JSON Schema for editors (templates/job.schema.json) is generated from it.
 * Keys are the contract's snake_case; every description is shown by editors.
 * Each message is a key of templates/texts that says what is expected there.
 */
const text = z.string('phrase.text').trim().min(1, 'phrase.text')
const isoDate = z
  .string('phrase.date')
  .regex(ISO_DATE, { error: 'phrase.date', abort: true })
  .refine(isDay, 'phrase.date')
const isoTime = z
  .string('phrase.time')
  .regex(ISO_TIME, { error: 'phrase.time', abort: true })
  .refine(isMoment, 'phrase.time')
const cylinder = z.int('phrase.cylinder').min(1, 'phrase.cylinder').max(16, 'phrase.cylinder')
const cylinderList = z.array(cylinder, 'phrase.cylinder-list').min(1, 'phrase.cylinder-list')
const positive = z.number('phrase.positive').positive('phrase.positive')
const year = z.int('phrase.year').min(1900, 'phrase.year').max(2100, 'phrase.year')
const column = z.union([text, z.int('phrase.column').min(1, 'phrase.column')], 'phrase.column')
const stage = z.enum(['before', 'after'])

/** A mapping that takes no other keys. */
const keys = <S extends z.core.$ZodLooseShape>(shape: S) => z.strictObject(shape, 'phrase.mapping')
/** A list whose entries share one form. */
const list = <T extends z.core.SomeType>(entry: T) => z.array(entry, 'phrase.list')

export const channelSchema = keys({
  column: column.describe('Header name, or 1-based number where the file has no header.'),
  to_column: column
    .optional()
    .describe('One column a frame: the last column of this signal; `column` is its first.'),
  column_step: cylinder
    .optional()
    .describe('One column a frame: this signal is in every so-many-th column. Default 1.'),
  carries: z.enum(['secondary', 'sync', 'primary-voltage', 'primary-current', 'speed']),
  cylinders: z
    .union([z.literal('all'), cylinder, cylinderList], 'phrase.cylinders')
    .optional()
    .describe('all, one number, or a list: the cylinders this pickup sees.'),
  cylinder: cylinder.optional().describe('sync only: the cylinder whose firing the pulse marks.'),
  unit: z.enum(['V', 'mV', 'kV', 'A', 'mA', 'rpm', 'Hz']).describe('Unit in the file, before scale.'),
  scale: z
    .number('phrase.scale')
    .refine((v) => v !== 0, 'phrase.scale')
    .default(1),
  polarity: z.enum(['auto', 'positive', 'negative']).default('auto'),
  limits: z
    .tuple([z.number('phrase.number'), z.number('phrase.number')], 'phrase.limits')
    .optional()
    .describe("The recorder's range in the file's figures."),
})

/** Units of a time column. */
export const TIME_UNITS = ['s', 'ms', 'us', 'ns'] as const
export type TimeUnit = (typeof TIME_UNITS)[number]
export const timeSchema = z.union(
  [keys({ column, unit: z.enum(TIME_UNITS) }), keys({ sample_rate_hz: positive })],
  'phrase.time-axis',
)

const recording = {
  file: text,
  time: timeSchema,
  channels: list(channelSchema).min(1, 'phrase.filled-list'),
  over_range: list(text).optional().describe('Words that stand for clipped samples.'),
}

export const captureSchema = keys({
  ...recording,
  stage,
  condition: z.enum(['idle', '2500 rpm', 'snap', 'cranking', 'cruise']),
  engine: z.enum(['warm', 'cold']),
  taken: isoTime,
})

export const traceSchema = keys({
  ...recording,
  stage: stage.optional(),
  condition: z.string('phrase.text').optional(),
  taken: isoTime.optional(),
})

const photoSchema = keys({ file: text, caption: z.string('phrase.text').optional(), stage: stage.optional() })

export const engineSchema = keys({
  cylinders: cylinder,
  strokes: z.literal([4, 2]).default(4),
  firing_order: cylinderList,
  ignition: z.enum(['distributor', 'coil-per-cylinder', 'wasted-spark']),
  pairs: list(z.tuple([cylinder, cylinder], 'phrase.pair'))
    .optional()
    .describe('wasted-spark only.'),
  banks: z.record(z.string(), cylinderList, 'phrase.banks').optional(),
  fuel: z.enum(['E0', 'E5', 'E10', 'E85', 'LPG', 'CNG']),
  displacement_l: positive.optional(),
})

export const instrumentSchema = keys({
  description: text.optional(),
  calibration: keys({ date: isoDate, due: isoDate.optional(), certificate: text.optional() }).optional(),
  voltage_uncertainty_percent: positive
    .optional()
    .describe('Expanded, k = 2. Default 10, and the report says so.'),
  time_uncertainty_ppm: positive.optional().describe('Expanded, k = 2. Default 100.'),
})

export const shopSchema = keys({
  name: text,
  address: text.optional(),
  phone: text.optional(),
  email: text.optional(),
  registration: text.optional(),
})

export const technicianSchema = keys({ name: text, certificate: text.optional() })

export const reviewSchema = keys({
  by: text.describe('Who overrules.'),
  at: isoDate,
  of: z.enum(['verdict', 'cause']).describe('What is overruled: the verdict on a cylinder, or the cause.'),
  cylinder: cylinder.optional().describe('of: verdict only.'),
  stage: stage.optional().describe('of: verdict only. Default before.'),
  instead: text.describe('The verdict, or the id of the cause, that this person holds to be right.'),
  place: text.optional().describe('of: cause only: where, such as cylinder 3.'),
  reason: text.max(400, 'phrase.review-reason'),
})

export const jobSchema = keys({
  format: z.literal(1),
  work_order: text.describe('Unique for the shop.'),
  opened: isoDate,
  closed: isoDate.optional(),
  shop: shopSchema,
  technician: technicianSchema,
  customer: keys({ name: text.optional(), contact: text.optional(), reference: text.optional() }).optional(),
  vehicle: keys({
    vin: text.optional(),
    plate: text.optional(),
    unit_number: text.optional(),
    year: year.optional(),
    make: text.optional(),
    model: text.optional(),
    odometer: z
      .strictObject(
        {
          value: z.number('phrase.not-negative').nonnegative('phrase.not-negative'),
          unit: z.enum(['mi', 'km']),
        },
        'phrase.odometer',
      )
      .optional(),
  }),
  engine: engineSchema,
  complaint: text,
  cause: text.optional(),
  correction: text.optional(),
  instrument: instrumentSchema.optional(),
  captures: list(captureSchema).default([]).describe('May be empty where the log alone is reported.'),
  traces: list(traceSchema).nullish(),
  photos: list(photoSchema).nullish(),
  review: list(reviewSchema)
    .nullish()
    .describe('Where a person overrules the report. The report shows both; its conclusion stays.'),
})

export type Job = z.infer<typeof jobSchema>
export type CaptureEntry = z.infer<typeof captureSchema>
export type TraceEntry = z.infer<typeof traceSchema>
export type ChannelEntry = z.infer<typeof channelSchema>
export type ReviewEntry = z.infer<typeof reviewSchema>
export type Engine = Job['engine']
export type Stage = CaptureEntry['stage']
