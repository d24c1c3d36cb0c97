import { z } from 'zod'
import {
  certainties,
  directions,
  engineClasses,
  faultStatuses,
  findingKinds,
  findingOrders,
  findingStates,
  nextKinds,
  repairReasons,
  scopes,
  standingWords,
  statedStands,
} from '../conclusion/words.ts'
import { APART_FIGURES } from '../verdicts/apart/apart-finding.ts'
import { BASES } from '../verdicts/define-rule.ts'
import { RUNNINGS } from '../verdicts/running.ts'
import { HOSES, STATIONS } from '../verdicts/leak-hunt/stations.ts'
import { PLACE_STATES } from '../verdicts/leak-hunt/leak-hunt.ts'
import { WAYS } from '../verdicts/leak-hunt/next-joint.ts'
import { FOLLOWED } from '../verdicts/history/visit.ts'
import { repairVerdicts, verdictNames } from '../verdicts/verdict-names.ts'

/**
 * result.json: everything the report says. The CSV files, the charts and the PDF are views of it and compute nothing.
 * Keys are the contract's snake_case. An absent figure is `{ absent: <reason> }`, never 0 and never null.
 * Schema published as templates/result.schema.json (generated).
 */
const n = z.number()
const stage = z.enum(['before', 'after'])

const intervalSchema = z.strictObject({ value: n, low: n, high: n, unit: z.string() })
const budgetLine = z.strictObject({ source: z.string(), u: n })
const figureSchema = z.union([
  z.strictObject({
    value: n,
    low: n,
    high: n,
    unit: z.string(),
    mad: n,
    n: z.int(),
    budget: z.array(budgetLine),
    /** Of a firing voltage beyond the highest samples: how far these reach, kV. */
    extrapolated_from: n.optional(),
  }),
  /** Absent; where only a lower bound is known (tops cut off or missed by the recorder), with that bound at 95 %. */
  z.strictObject({ absent: z.string(), at_least: n.optional(), unit: z.string().optional() }),
])
type SavedArg =
  | number
  | string
  | z.infer<typeof intervalSchema>
  | { words: string }
  | { key: string; args: Record<string, SavedArg> }
  | { list: SavedArg[]; joined: 'and' | 'comma' | 'semicolon' | 'slash' }

/**
 * What stands in a sentence: a figure; words that somebody typed; another sentence; a list of these; or a string that is
 * the same in every language (a file, a code, a mark, numbers).
 */
const argSchema: z.ZodType<SavedArg> = z.lazy(() =>
  z.union([
    n,
    z.string(),
    intervalSchema,
    z.strictObject({ words: z.string() }),
    z.strictObject({ key: z.string(), args: z.record(z.string(), argSchema) }),
    z.strictObject({ list: z.array(argSchema), joined: z.enum(['and', 'comma', 'semicolon', 'slash']) }),
  ]),
)

/** A sentence: the key of its text, its arguments, and the sentence itself in the report's language. */
const statementSchema = z.strictObject({
  key: z.string(),
  args: z.record(z.string(), argSchema),
  text: z.string(),
})
const plainFigure = z.union([
  z.strictObject({ value: n, low: n, high: n, unit: z.string() }),
  z.strictObject({ absent: z.string() }),
])

const captureRecord = z.strictObject({
  file: z.string(),
  sha256: z.string(),
  bytes: z.int(),
  stage,
  condition: z.string(),
  engine: z.enum(['warm', 'cold']),
  taken: z.string(),
  rows: z.int(),
  sample_rate_hz: n,
  start_s: n,
  duration_s: n,
  dialect: z.strictObject({
    encoding: z.string(),
    separator: z.string(),
    decimal: z.string(),
    preamble_lines: z.int(),
    header: z.array(z.string()).nullable(),
    evidence: z.array(z.string()),
  }),
  channels: z.array(
    z.strictObject({
      column: z.union([z.string(), z.int()]),
      carries: z.string(),
      cylinders: z.string(),
      unit: z.string(),
      polarity: z.enum(['positive', 'negative', 'not applicable']),
      quantum: n,
      limits: z.tuple([n.nullable(), n.nullable()]).nullable(),
      limits_from: z.string(),
      clipped_samples: z.int(),
    }),
  ),
  sync: z.strictObject({ seen: z.int(), bridged: z.int(), rejected: z.int() }).nullable(),
  events: z.int(),
  partial: z.int(),
  wasted: z.int(),
  speed: z.strictObject({
    mean_rpm: figureSchema,
    spread_rpm: plainFigure,
    swing_rpm: plainFigure,
    swing_period_s: plainFigure,
  }),
  remarks: z.array(
    z.strictObject({
      code: z.string(),
      forbids: z.array(z.string()),
      cylinders: z.array(z.int()),
      says: statementSchema,
    }),
  ),
})

const cylinderRecord = z.strictObject({
  /** Evidence mark, such as C1·5 (see parts/marks.ts). */
  mark: z.string(),
  stage,
  capture: z.string(),
  cylinder: z.int(),
  verdict: z.enum(verdictNames),
  /** The rule that decided (its id, its limits by key, its sources by key) and why in words. */
  rule: z.string(),
  limits: z.array(z.string()),
  sources: z.array(z.string()),
  reason: statementSchema,
  events: z.int(),
  misfires: z.int(),
  /** Events whose arc went out before it was a spark line; not among `misfires`. */
  went_out: z.int().optional(),
  partial: z.int(),
  wasted: z.int(),
  classes: z.record(z.string(), n),
  figures: z.record(z.string(), figureSchema),
  /** Condition of the capture; left out in older results, as are the keys below. */
  condition: z.string().optional(),
  /** How the engine ran, as the verdict took it: `idle` is a warm one. */
  running: z.enum(RUNNINGS).default('idle'),
  /** What the verdict rests on: a limit, or the comparison with its fellows; null where nothing is stated. */
  basis: z.enum(BASES).nullable().default(null),
  /** Figures beside the mixture that stand apart from the other cylinders of the capture, or from what is usual. */
  apart: z
    .array(
      z.strictObject({
        figure: z.enum(APART_FIGURES),
        direction: z.enum(['high', 'low']),
        against: z.enum(['fellows', 'usual']),
        size: intervalSchema,
        limits: z.array(z.string()),
        says: statementSchema,
      }),
    )
    .default([]),
  /** Late rise against the level ones among the other cylinders, points; held at 95 % over the engine. */
  against_fellows: plainFigure.default({ absent: 'not-recorded' }),
  /** Events outside the capture's condition, left out by their own speed. */
  left_out: z.int().default(0),
})

/** Captures of one stage and condition taken together, since some are too short by themselves. */
const poolRecord = z.strictObject({
  /** Evidence mark, such as P1. */
  mark: z.string(),
  /** As the cylinders' `capture`: the files joined by `+`. */
  capture: z.string(),
  files: z.array(z.string()),
  stage,
  condition: z.string(),
  engine: z.enum(['warm', 'cold']),
})

const testRecord = z.strictObject({
  /** Evidence mark, such as T3, and that of the instant on its trace. */
  mark: z.string(),
  instant: z.string().nullable(),
  at: z.string(),
  step: z.string(),
  place: z.string().nullable(),
  stage,
  condition: z.string().nullable(),
  lines: z.array(z.int()),
  readings: z.array(
    z.strictObject({
      reading: z.string(),
      value: n.nullable(),
      unit: z.string().nullable(),
      expected_low: n.nullable(),
      expected_high: n.nullable(),
      finding: z.string().nullable(),
    }),
  ),
  computed: z.record(z.string(), intervalSchema),
  finding: z.enum(['response', 'no response', 'unclear', 'in limits', 'out of limits', 'recorded']),
  effect: intervalSchema.nullable(),
  p_value: n.nullable(),
  trace: z.string().nullable(),
  from_s: n.nullable(),
  to_s: n.nullable(),
  outcome: z.string().nullable(),
  note: z.string().nullable(),
  observed: z.boolean(),
  meaning: z.array(statementSchema),
})

const engineStage = z.strictObject({
  /** `all`, `bank N`, `cylinder N`, `mixed` or `none`. */
  pattern: z.string(),
  cylinders: z.array(z.int()),
  says: statementSchema,
  speed: z.strictObject({
    mean_rpm: plainFigure,
    spread_rpm: plainFigure,
    swing_rpm: plainFigure,
    swing_period_s: plainFigure,
  }),
})

const ledgerRecord = z.strictObject({
  /** `clear`, `leading-…`, `two`, `several`, `not-listed` or `nothing`. */
  kind: z.string(),
  standing: statementSchema,
  /** Share of all causes that are not among the ranked ones. */
  rest_probability: n,
  /** Every piece of evidence: its group, the share of its weight it was given, the tests it rests on (indices into `tests`),
   * and how many times likelier it makes each of `causes`, in their order, than something not in the list. */
  entries: z.array(
    z.strictObject({
      says: statementSchema,
      group: z.string(),
      power: n,
      tests: z.array(z.int()),
      factors: z.array(n),
    }),
  ),
  sensitivity: z.array(statementSchema),
  contradictions: z.array(statementSchema),
  ruled_out: z.array(
    z.strictObject({
      id: z.string(),
      name: statementSchema,
      probability: n,
      by: z.array(z.strictObject({ says: statementSchema, factor: n })),
    }),
  ),
  /** The first place after the captures, after each test and after the repair check. */
  chain: z.array(
    z.strictObject({
      after: z.enum(['captures', 'test', 'repair check']),
      test: z.int().nullable(),
      moved: z.boolean(),
      id: z.string(),
      place: z.string().nullable(),
      name: z.string(),
      probability: n,
    }),
  ),
  /** Entries of a shop's own in place of the shipped ones. */
  overridden: statementSchema.nullable(),
  origin: statementSchema,
})

/** A piece of the intake path. */
const seat = {
  station: z.enum(STATIONS),
  hose: z.enum(HOSES).nullable(),
  bank: z.string().nullable(),
  cylinder: z.int().nullable(),
}

/** The hunt for unmetered air, place by place along the intake path from the air duct to the valves. */
const leakHuntRecord = z.strictObject({
  /** In the order the log first names them; `seat` null where the words name no one place of the path. */
  places: z.array(
    z.strictObject({
      place: z.string(),
      seat: z.strictObject(seat).nullable(),
      state: z.enum(PLACE_STATES),
      /** It answered in a way that leaves no other place. */
      proven: z.boolean(),
      /** What it said after the work; null where it was not tried again. */
      after: z.enum(['answered', 'silent']).nullable(),
      tests: z.array(z.string()),
    }),
  ),
  untried: z.array(z.strictObject(seat)),
  /** The joint that halves what is left; null where the next step of the job is no test for a leak. */
  next: z
    .strictObject({
      way: z.enum(WAYS),
      place: z.string().nullable(),
      seat: z.strictObject(seat).nullable(),
      /** Share of what is left that it looks at. */
      share: n.nullable(),
      says: statementSchema,
    })
    .nullable(),
  /** Ports the log closes and never opens. */
  left_capped: z.array(
    z.strictObject({ place: z.string(), test: z.string(), brakes: z.boolean(), says: statementSchema }),
  ),
})

const engineState = z.strictObject({
  /** The first that applies: `fault`, `suspected`, `not known`, `in order`. */
  class: z.enum(engineClasses),
  /** Findings it rests on. */
  findings: z.array(z.string()),
  /** Findings out of order as found of which nothing was read after the work. */
  not_read_again: z.array(z.string()),
  /** In a few words each. */
  says: z.array(statementSchema),
})

/** What the job comes to, in one value. Page one, headline, record page, cause page, fleet and next step read it and decide nothing. */
const conclusionRecord = z.strictObject({
  /** Everything found, out of order or in order, from captures and log alike, each once. */
  findings: z.array(
    z.strictObject({
      id: z.string(),
      state: z.enum(findingStates),
      kind: z.enum(findingKinds),
      order: z.enum(findingOrders),
      where: z.strictObject({
        scope: z.enum(scopes),
        bank: z.string().nullable(),
        cylinders: z.array(z.int()),
        place: z.string().nullable(),
      }),
      /** Cylinders of the pattern that lie at the limit themselves. */
      unsure: z.array(z.int()),
      condition: z.string().nullable(),
      reading: z.string().nullable(),
      direction: z.enum(directions),
      size: z
        .strictObject({
          value: n,
          low: n,
          high: n,
          unit: z.string(),
          limit_low: n.nullable(),
          limit_high: n.nullable(),
        })
        .nullable(),
      sure: z.enum(certainties),
      /** Why it was not judged. */
      why: statementSchema.nullable(),
      marks: z.array(z.string()),
      /** A fault, by its id. */
      explained_by: z.string().nullable(),
    }),
  ),
  as_found: engineState,
  now: engineState,
  faults: z.array(
    z.strictObject({
      id: z.string(),
      cause: z.string(),
      place: z.string().nullable(),
      cylinders: z.array(z.int()),
      standing: z.enum(standingWords),
      share: n,
      /** The range its share takes when weights and priors are off by the stated factor. */
      share_range: z.tuple([n, n]).nullable(),
      /** How often it keeps first place then, 0 to 1. */
      keeps_first: n,
      /** Other causes the evidence leaves room for. */
      others: z.array(z.strictObject({ cause: z.string(), place: z.string().nullable(), share: n })),
      explains: z.array(z.string()),
      against: z.array(z.string()),
      status: z.enum(faultStatuses),
      /** How sure it is, in words with the figures above. */
      says: statementSchema,
    }),
  ),
  /** The technician's own cause and correction, held against the evidence. */
  stated: z.array(
    z.strictObject({
      what: z.enum(['cause', 'correction']),
      words: z.string(),
      stands: z.enum(statedStands),
    }),
  ),
  repair: z.strictObject({
    verdict: z.enum(repairVerdicts),
    why: z.enum(repairReasons),
    reason: statementSchema,
    remarks: z.array(statementSchema),
    rests_on: z.enum(['captures', 'log', 'nothing']),
    supports: z.array(z.string()),
    opposes: z.array(z.string()),
    not_read_again: z.array(z.string()),
    /** Cylinders still out of order, or newly so. */
    left: z.array(z.int()),
  }),
  /** One step that follows from the state now, or none; what its outcomes would change stands under `next_test`. */
  next: z.strictObject({
    kind: z.enum(nextKinds),
    id: z.string().nullable(),
    place: z.string().nullable(),
    minutes: n.nullable(),
  }),
  /** What and where, why, mended or not: the parts, and the one sentence of them. */
  headline: z.strictObject({
    parts: z.array(z.strictObject({ part: z.enum(['found', 'cause', 'mended']), says: statementSchema })),
    text: z.string(),
  }),
  /** Page one for the customer, passage by passage. */
  page_one: z.strictObject({
    found: z.array(statementSchema),
    sure: z.array(statementSchema),
    mended: z.array(statementSchema),
    unchecked: z.array(statementSchema),
    driving: z.array(statementSchema),
    next: z.array(statementSchema),
  }),
})

/** A verdict or a cause overruled by a person. */
const reviewRecord = z.strictObject({
  by: z.string(),
  at: z.string(),
  of: z.enum(['verdict', 'cause']),
  cylinder: z.int().nullable(),
  stage: stage.nullable(),
  /** What the report says: a verdict, or the first cause with its place; null where it says nothing of it. */
  said: z.string().nullable(),
  said_place: z.string().nullable(),
  /** What the person holds to be right, in the same words. */
  instead: z.string(),
  place: z.string().nullable(),
  reason: z.string(),
  /** True where the report says the same. */
  agrees: z.boolean(),
  says: statementSchema,
})

/** The vehicle's own earlier visits, and what has changed against them. */
const historyRecord = z.strictObject({
  /** Earlier reports that hold, oldest first. */
  visits: z.array(
    z.strictObject({
      work_order: z.string(),
      opened: z.string(),
      odometer: z.strictObject({ value: n, unit: z.string() }).nullable(),
      /** By what it is taken for the same vehicle; a plate is weak. */
      identity: z.enum(['vin', 'unit', 'plate']),
      output: z.string(),
      manifest_sha256: z.string(),
      cylinders: z.array(
        z.strictObject({
          stage,
          cylinder: z.int(),
          healthy: z.boolean(),
          figures: z.record(z.string(), intervalSchema),
        }),
      ),
    }),
  ),
  left_out: z.array(
    z.strictObject({
      output: z.string(),
      why: z.enum(['unreadable', 'altered', 'not signed', 'other engine']),
    }),
  ),
  /** Outputs of other vehicles that the shop's scatter was taken from. */
  others: z.int(),
  /** Standard deviation from visit to visit by figure: points of late rise, else %. */
  scatter: z.record(z.string(), n),
  changes: z.array(
    z.strictObject({
      stage,
      cylinder: z.int(),
      figure: z.enum(FOLLOWED),
      now: intervalSchema,
      /** Mean of its own healthy figures, in the figure's unit, over so many visits. */
      reference: n,
      visits: z.int(),
      /** Points of late rise, else % of the reference, by logarithm; and the reference change value in the same. */
      change: n,
      reference_change: n,
      changed: z.boolean(),
    }),
  ),
  says: z.array(statementSchema),
})

export const resultSchema = z.strictObject({
  format: z.literal(1),
  /** `signing_key`: fingerprint of the shop's public key; left out where the report is not signed. */
  program: z.strictObject({
    name: z.literal('burnline'),
    version: z.string(),
    signing_key: z.string().optional(),
    /** SHA-256 of the certificate whose signature readers show, the name in it, and the stated date of signing. */
    certificate: z.strictObject({ sha256: z.string(), name: z.string(), signed_at: z.string() }).optional(),
  }),
  language: z.string(),
  page: z.enum(['A4', 'LETTER']),
  job: z.strictObject({
    work_order: z.string(),
    opened: z.string(),
    closed: z.string().nullable(),
    shop: z.record(z.string(), z.string()),
    technician: z.record(z.string(), z.string()),
    customer: z.record(z.string(), z.string()).nullable(),
    vehicle: z.strictObject({
      vin: z.string().nullable(),
      vin_check: z.enum(['passes', 'fails', 'not given', 'not a VIN']),
      plate: z.string().nullable(),
      unit_number: z.string().nullable(),
      year: z.int().nullable(),
      make: z.string().nullable(),
      model: z.string().nullable(),
      odometer: z.strictObject({ value: n, unit: z.string() }).nullable(),
    }),
    engine: z.strictObject({
      cylinders: z.int(),
      strokes: z.int(),
      firing_order: z.array(z.int()),
      ignition: z.string(),
      fuel: z.string(),
      pairs: z.array(z.array(z.int())).nullable(),
      banks: z.record(z.string(), z.array(z.int())).nullable(),
      displacement_l: n.nullable(),
    }),
    complaint: z.string(),
    cause: z.string().nullable(),
    correction: z.string().nullable(),
    instrument: z.strictObject({
      description: z.string().nullable(),
      calibration: z.record(z.string(), z.string()).nullable(),
      voltage_uncertainty_percent: n,
      voltage_uncertainty_stated: z.boolean(),
      time_uncertainty_ppm: n,
      time_uncertainty_stated: z.boolean(),
    }),
    photos: z.array(
      z.strictObject({ file: z.string(), caption: z.string().nullable(), stage: z.string().nullable() }),
    ),
  }),
  captures: z.array(captureRecord.extend({ mark: z.string() })),
  /** Left out where no captures were taken together. */
  pools: z.array(poolRecord).optional(),
  cylinders: z.array(cylinderRecord),
  engine: z.strictObject({ before: engineStage.nullable(), after: engineStage.nullable() }),
  tests: z.array(testRecord),
  causes: z.array(
    z.strictObject({
      id: z.string(),
      place: z.string().nullable(),
      probability: n,
      name: statementSchema,
      for: z.array(statementSchema),
      against: z.array(statementSchema),
    }),
  ),
  /** How the causes were weighed: what may be said of the first place, every entry, what it depends on, what was ruled out. */
  ledger: ledgerRecord,
  /** Null: nothing more to test; the standing says why. */
  next_test: z
    .strictObject({
      id: z.string(),
      place: z.string().nullable(),
      says: statementSchema,
      minutes: n,
      /** Expected gain of information; null where the test follows from the standing and was not chosen for it. */
      gain_bits: n.nullable(),
      /** Dangers of the page of cautions that go with it. */
      cautions: z.array(z.string()),
      outcomes: z.array(z.strictObject({ id: z.string(), probability: n.nullable(), says: statementSchema })),
    })
    .nullable(),
  /** Left out where nothing was sprayed, capped or smoked. */
  leak_hunt: leakHuntRecord.optional(),
  repair: z.strictObject({
    verdict: z.enum(repairVerdicts),
    says: statementSchema,
    work: z.array(z.string()),
    /** What else changed between before and after, and so limits what may be said. */
    conditions: z.array(statementSchema),
    /** What that forbids: any comparison of the stages, or one of voltages. Left out where it forbids nothing. */
    forbids: z.enum(['all', 'voltage']).optional(),
    /** Readings of the whole engine taken in both stages: trims, lambda, manifold pressure, swing of the idle. */
    readings: z.array(
      z.strictObject({
        name: z.string(),
        condition: z.string().nullable(),
        before: intervalSchema,
        after: intervalSchema,
        change: intervalSchema,
      }),
    ),
    cylinders: z.array(
      z.strictObject({
        cylinder: z.int(),
        before: z.string(),
        after: z.string(),
        verdict: z.enum(repairVerdicts),
        shifts: z.record(z.string(), plainFigure),
      }),
    ),
  }),
  conclusion: conclusionRecord,
  /** What a person holds against the report, beside what it says; left out where nobody overrules. The conclusion stays. */
  review: z.array(reviewRecord).optional(),
  /** Left out where no earlier reports were handed in. The conclusion does not use it. */
  history: historyRecord.optional(),
  /** Only in a report made again after a change: its number, the one it replaces, and what changed (parts/revision.ts). */
  revision: z
    .strictObject({
      number: z.int(),
      replaces: z.strictObject({ number: z.int(), result_sha256: z.string() }),
      changes: z.array(statementSchema),
    })
    .optional(),
  /** Sentences of page one, in order: those of the conclusion. */
  summary: z.array(statementSchema),
  limits: z.array(
    z.strictObject({
      key: z.string(),
      value: n,
      unit: z.string(),
      meaning: z.string(),
      origin: z.string(),
      changed: z.boolean(),
    }),
  ),
  sources: z.array(z.strictObject({ key: z.string(), text: z.string() })),
  /** What ran, in order, with its settings: the method section is this list. */
  method: z.array(
    z.strictObject({
      step: z.string(),
      says: statementSchema,
      settings: z.record(z.string(), z.union([n, z.string()])),
    }),
  ),
  problems: z.array(
    z.strictObject({
      code: z.string(),
      severity: z.string(),
      file: z.string(),
      line: z.int().nullable(),
      column: z.int().nullable(),
      text: z.string(),
    }),
  ),
  inputs: z.array(z.strictObject({ file: z.string(), sha256: z.string(), bytes: z.int() })),
  /** Files that came with the call and not with the job: a shop file, its logo, manifests of earlier reports. Left out where there was none. */
  handed_in: z
    .array(
      z.strictObject({
        what: z.enum(['shop', 'logo', 'history']),
        file: z.string(),
        sha256: z.string(),
        bytes: z.int(),
      }),
    )
    .optional(),
  /** Sentences the shop says its own way, beside those shipped; left out where there are none. */
  own_texts: z
    .array(z.strictObject({ key: z.string(), sentence: z.string(), shipped: z.string() }))
    .optional(),
  /** What was taken out of a redacted copy; left out in an original. */
  redacted: z.array(z.string()).optional(),
})

/** Records of versions before the conclusion go on being read. */
export const earlierResultSchema = resultSchema.partial({ conclusion: true })

export type Result = z.infer<typeof resultSchema>
export type EarlierResult = z.infer<typeof earlierResultSchema>
export type Statement = z.infer<typeof statementSchema>
export type FigureRecord = z.infer<typeof figureSchema>
export type CylinderRecord = z.infer<typeof cylinderRecord>
export type CaptureRecord = z.infer<typeof captureRecord>
export type LeakHuntRecord = z.infer<typeof leakHuntRecord>
export type HistoryRecord = z.infer<typeof historyRecord>
export type ReviewRecord = z.infer<typeof reviewRecord>
export type TestRecord = z.infer<typeof testRecord>
export type ConclusionRecord = z.infer<typeof conclusionRecord>
