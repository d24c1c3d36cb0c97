import { z } from 'zod'

/** The proof file: what was run, when, on which program, and the worst error of each figure against its limit. */
export const proofSchema = z.strictObject({
  format: z.literal(1),
  program: z.strictObject({ name: z.literal('burnline'), version: z.string(), sha256: z.string() }),
  date: z.string(),
  holds: z.boolean(),
  worst: z.array(
    z.strictObject({
      figure: z.string(),
      unit: z.string(),
      error: z.number(),
      limit: z.number(),
      capture: z.string(),
    }),
  ),
  captures: z.array(
    z.strictObject({
      name: z.string(),
      origin: z.string(),
      events: z.int(),
      figures: z.record(z.string(), z.number()),
    }),
  ),
})
export type Proof = z.infer<typeof proofSchema>
