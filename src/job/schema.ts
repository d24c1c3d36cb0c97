import { z } from 'zod'

/**
 * The one schema of job.yaml. The JSON Schema for editors (templates/job.schema.json) is generated from it.
 * Keys are the contract's snake_case; every description is shown by editors.
 */
const text = z.string().trim().min(1)
const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'a date such as 2026-03-04')
const isoTime = z.string().regex(
  /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})?$/, 'a date and time such as 2026-03-04T09:12:00-05:00')
const cylinder = z.int().min(1).max(16)
const positive = z.number().positive()

export const channelSchema = z.strictObject({
  column: z.union([text, z.int().min(1)]).describe('Header name, or 1-based number where the file has no header.'),
  carries: z.enum(['secondary', 'sync', 'primary-voltage', 'primary-current', 'speed']),
  cylinders: z.union([z.literal('all'), cylinder, z.array(cylinder).min(1)]).optional()
    .describe('all, one number, or a list: the cylinders this pickup sees.'),
  cylinder: cylinder.optional().describe('sync only: the cylinder whose firing the pulse marks.'),
  unit: z.enum(['V', 'mV', 'kV', 'A', 'mA', 'rpm', 'Hz']).describe('Unit in the file, before scale.'),
  scale: z.number().refine((v) => v !== 0 && Number.isFinite(v), 'a number other than 0').default(1),
  polarity: z.enum(['auto', 'positive', 'negative']).default('auto'),
  limits: z.tuple([z.number(), z.number()]).optional().describe("The recorder's range in the file's figures."),
})

export const timeSchema = z.union([
  z.strictObject({ column: z.union([text, z.int().min(1)]), unit: z.enum(['s', 'ms', 'us']) }),
  z.strictObject({ sample_rate_hz: positive }),
])

const recording = {
  file: text,
  time: timeSchema,
  channels: z.array(channelSchema).min(1),
  over_range: z.array(text).optional().describe('Words that stand for clipped samples.'),
}

export const captureSchema = z.strictObject({
  ...recording,
  stage: z.enum(['before', 'after']),
  condition: z.enum(['idle', '2500 rpm', 'snap', 'cranking', 'cruise']),
  engine: z.enum(['warm', 'cold']),
  taken: isoTime,
})

export const traceSchema = z.strictObject({
  ...recording,
  stage: z.enum(['before', 'after']).optional(),
  condition: z.string().optional(),
  taken: isoTime.optional(),
})

export const photoSchema = z.strictObject({
  file: text, caption: z.string().optional(), stage: z.enum(['before', 'after']).optional(),
})

export const jobSchema = z.strictObject({
  format: z.literal(1),
  work_order: text.describe('Unique for the shop.'),
  opened: isoDate,
  closed: isoDate.optional(),
  shop: z.strictObject({
    name: text, address: text.optional(), phone: text.optional(), email: text.optional(), registration: text.optional(),
  }),
  technician: z.strictObject({ name: text, certificate: text.optional() }),
  customer: z.strictObject({ name: text.optional(), contact: text.optional(), reference: text.optional() }).optional(),
  vehicle: z.strictObject({
    vin: text.optional(), plate: text.optional(), unit_number: text.optional(),
    year: z.int().min(1900).max(2100).optional(), make: text.optional(), model: text.optional(),
    odometer: z.strictObject({ value: z.number().nonnegative(), unit: z.enum(['mi', 'km']) }).optional(),
  }),
  engine: z.strictObject({
    cylinders: cylinder,
    strokes: z.union([z.literal(4), z.literal(2)]).default(4),
    firing_order: z.array(cylinder).min(1),
    ignition: z.enum(['distributor', 'coil-per-cylinder', 'wasted-spark']),
    pairs: z.array(z.tuple([cylinder, cylinder])).optional().describe('wasted-spark only.'),
    banks: z.record(z.string(), z.array(cylinder).min(1)).optional(),
    fuel: z.enum(['E0', 'E5', 'E10', 'E85', 'LPG', 'CNG']),
    displacement_l: positive.optional(),
  }),
  complaint: text,
  cause: text.optional(),
  correction: text.optional(),
  instrument: z.strictObject({
    description: text.optional(),
    calibration: z.strictObject({ date: isoDate, due: isoDate.optional(), certificate: text.optional() }).optional(),
    voltage_uncertainty_percent: positive.optional().describe('Expanded, k = 2. Default 10, and the report says so.'),
    time_uncertainty_ppm: positive.optional().describe('Expanded, k = 2. Default 100.'),
  }).optional(),
  captures: z.array(captureSchema).min(1),
  traces: z.array(traceSchema).nullish(),
  photos: z.array(photoSchema).nullish(),
})

export type Job = z.infer<typeof jobSchema>
export type CaptureEntry = z.infer<typeof captureSchema>
export type TraceEntry = z.infer<typeof traceSchema>
export type ChannelEntry = z.infer<typeof channelSchema>
export type PhotoEntry = z.infer<typeof photoSchema>
export type Engine = Job['engine']
export type Stage = CaptureEntry['stage']
