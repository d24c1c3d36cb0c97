import { z } from 'zod'
import { DANGERS } from '../../job/dangers.ts'

/** Ratios beyond these would let one reading settle everything; a share may not be quite 0 or 1 for the same reason. */
const ratio = z.number().min(0.005).max(200)
const share = z.number().min(0.001).max(0.99)
const id = z.string().regex(/^[a-z][a-z0-9-]*$/)
const minutes = z.number().positive().max(600)

/** A value for causes wherever they sit, or one where the evidence points and one for all other places. */
const placed = <T extends z.ZodType>(value: T) =>
  z.union([value, z.strictObject({ here: value, elsewhere: value })])

const cautions = z.array(z.enum(DANGERS)).min(1)

const IGNITIONS = ['distributor', 'coil-per-cylinder', 'wasted-spark'] as const

const causeSchema = z.strictObject({
  prior: z.number().positive(),
  where: z.enum(['engine', 'bank', 'cylinder', 'place']),
  families: z.array(id),
  /** Words of a place that mean this cause; every word of a phrase must be there. */
  places: z.array(z.string().regex(/^[a-z0-9-]+( [a-z0-9-]+)*$/)),
  follow_up: id.optional(),
  /** Fitted and worn as a set: all places count together where all are found alike. */
  set: z.boolean().optional(),
  /** Kinds of ignition that have the part; all where left out. */
  ignitions: z.array(z.enum(IGNITIONS)).min(1).optional(),
})
const evidenceSchema = z.strictObject({
  group: id,
  likelihood: z.record(id, placed(ratio)),
  otherwise: ratio.default(1),
  direct: z.boolean().default(false),
  /** Singles cylinders out: the more there are to choose from, the more pointing at the right one says. */
  picks: z.boolean().default(false),
})
const outcomeSchema = z.strictObject({
  id,
  chance: z.record(id, placed(share)).optional(),
  otherwise: share.optional(),
})
const testSchema = z.strictObject({
  minutes,
  at: z.enum(['engine', 'cylinder', 'cause']),
  of: z.array(id).default([]),
  step: id.optional(),
  /** The part its row names, where one step serves several. */
  part: id.optional(),
  /** Kinds of ignition it can be done on; all where left out. */
  ignitions: z.array(z.enum(IGNITIONS)).min(1).optional(),
  cautions,
  outcomes: z.array(outcomeSchema).min(2).optional(),
  finds: z.strictObject({ chance: share, false: share }).optional(),
})
const followUpSchema = z.strictObject({
  minutes,
  step: id.optional(),
  cautions,
  outcomes: z.array(id).min(2),
})

const tableSchema = z.strictObject({
  origin: id,
  cylinders: z.number().int().min(1),
  unsure: z.number().min(0).max(1),
  lapse: z.number().min(0).max(0.2),
  causes: z.record(id, causeSchema),
  groups: z.record(
    id,
    z.strictObject({
      repeat: z.number().min(0).max(1),
      shows: z.enum(['pattern', 'part']),
      meaning: z.string().min(1),
    }),
  ),
  evidence: z.record(id, evidenceSchema),
  tests: z.record(id, testSchema),
  follow_ups: z.record(id, followUpSchema),
})

export type CauseTest = z.infer<typeof testSchema>
export type Placed = number | { here: number; elsewhere: number }
/** Causes, kinds of evidence with their likelihoods, and tests, by id. */
export type CausesTable = z.infer<typeof tableSchema>

/** Causes without which the ledger cannot work: all that is not listed, and a leak at a place no words fit. */
const NEEDED = ['other', 'leak-at-place'] as const

/**
 * Checks a table of causes, as parsed from YAML.
 *
 * @throws ZodError naming every entry that is wrong: a shape, a name of no cause or family, chances that exceed 1
 */
export const parseCauses = (raw: unknown): CausesTable => checkedSchema.parse(raw)

const checkedSchema = tableSchema.superRefine((table, context) => {
  const say = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message })
  const names = namesOf(table)
  const checkNames = (path: (string | number)[], used: readonly string[]) => {
    for (const name of used) if (!names.has(name)) say([...path, name], 'no cause or family of this name')
  }
  for (const needed of NEEDED) if (!table.causes[needed]) say(['causes', needed], 'this cause is needed')
  for (const [key, cause] of Object.entries(table.causes)) {
    if (cause.follow_up !== undefined && !table.follow_ups[cause.follow_up])
      say(['causes', key, 'follow_up'], 'no follow-up of this name')
  }
  for (const [kind, evidence] of Object.entries(table.evidence)) {
    if (!table.groups[evidence.group]) say(['evidence', kind, 'group'], 'no group of this name')
    checkNames(['evidence', kind, 'likelihood'], Object.keys(evidence.likelihood))
  }
  for (const [key, test] of Object.entries(table.tests)) {
    checkNames(['tests', key, 'of'], test.of)
    for (const outcome of test.outcomes ?? [])
      checkNames(['tests', key, 'outcomes', outcome.id], Object.keys(outcome.chance ?? {}))
    for (const message of wrongChances(table, test)) say(['tests', key], message)
  }
})

/** Causes, families, and `any` for every listed cause. */
const namesOf = (table: CausesTable): ReadonlySet<string> =>
  new Set(['any', ...Object.keys(table.causes), ...Object.values(table.causes).flatMap((c) => c.families)])

/** A test has either outcomes or a finding; all outcomes but the last carry chances, which leave something for the last. */
function wrongChances(table: CausesTable, test: CauseTest): string[] {
  if ((test.outcomes === undefined) === (test.finds === undefined))
    return ['has outcomes or finds, one of them']
  const outcomes = test.outcomes ?? []
  const wrong = outcomes.flatMap((o, i) =>
    (o.otherwise !== undefined) === i < outcomes.length - 1
      ? []
      : [`outcome ${o.id}: all but the last have chances`],
  )
  const sums = Object.keys(table.causes).flatMap((cause) =>
    (['here', 'elsewhere'] as const).map((side) => ({
      cause,
      sum: outcomes
        .slice(0, -1)
        .reduce(
          (sum, o) =>
            sum + sideOf(valueFor(table, { of: o.chance ?? {}, otherwise: o.otherwise ?? 0, cause }), side),
          0,
        ),
    })),
  )
  const full = sums
    .filter((s) => s.sum > FULL)
    .map((s) => `chances under ${s.cause} sum to ${s.sum.toFixed(3)}, leaving nothing for the last outcome`)
  return [...new Set([...wrong, ...full])]
}

/** Sums above this leave nothing for the last outcome, rounding allowed for. */
const FULL = 0.9999

const sideOf = (value: Placed, side: 'here' | 'elsewhere'): number =>
  typeof value === 'number' ? value : value[side]

/** The value a map of causes and families holds for a cause: its own, else that of its first family there, else `otherwise`. */
export function valueFor(
  table: CausesTable,
  { of, otherwise, cause }: { of: Readonly<Record<string, Placed>>; otherwise: number; cause: string },
): Placed {
  const name = [cause, ...table.causes[cause]!.families, 'any'].find((n) => of[n] !== undefined)
  return name === undefined ? otherwise : of[name]!
}

/** Whether a cause is named by a list of causes and families. */
export const isOf = (table: CausesTable, cause: string, names: readonly string[]): boolean =>
  names.includes(cause) || table.causes[cause]!.families.some((f) => names.includes(f))
