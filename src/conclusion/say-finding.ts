import { ownWords, sentence, sentenceOf, type Sentence, type TextKey } from '../texts/messages.ts'
import { CONDITION_WORDS } from '../job/job-words.ts'
import type { Step } from '../job/log-steps.ts'
import type { Basis } from '../verdicts/define-rule.ts'
import { STEP_KINDS } from '../test-log/steps/index.ts'
import type { Says } from '../test-log/findings.ts'
import type { JobFinding } from './finding.ts'
import type { FindingKind } from './words.ts'

/**
 * Arguments of a finding's sentences: where it lies (`scope`, `bank`, `cylinders`, `place`), its figure and limits.
 * `where` is the place in words.
 */
export function argsOf({ kind, where, size, reading, unsure }: JobFinding): Says['args'] {
  return {
    scope: where.scope,
    where: whereSays(where),
    ...(where.bank === undefined ? {} : { bank: where.bank }),
    ...(where.cylinders.length ? { cylinders: where.cylinders.join(', ') } : {}),
    ...(where.place === undefined ? {} : { place: ownWords(where.place) }),
    ...(unsure.length ? { unsure: unsure.join(', ') } : {}),
    ...(reading === undefined ? {} : { reading }),
    ...(kind === 'part' ? { test: sentence(STEP_KINDS[reading as Step].title) } : {}),
    ...(size
      ? {
          size: { value: size.value, low: size.low, high: size.high, unit: size.unit as never },
          ...(size.limitLow === undefined ? {} : { limitLow: size.limitLow }),
          ...(size.limitHigh === undefined ? {} : { limitHigh: size.limitHigh }),
        }
      : {}),
  }
}

/** Where a finding lies, to stand within a sentence ("on cylinder 5"). */
function whereSays({ scope, bank, cylinders, place }: JobFinding['where']): Sentence {
  const numbers = cylinders.join(', ')
  if (scope === 'place') return sentence('where.place', { place: ownWords(place ?? '') })
  if (scope === 'bank') return sentence('where.bank', { bank: bank ?? '' })
  if (scope === 'cylinders')
    return sentence(cylinders.length > 1 ? 'where.cylinders' : 'where.cylinder', { cylinders: numbers })
  return sentence(cylinders.length === 0 ? 'where.engine' : 'where.all')
}

type Saying = (finding: JobFinding) => TextKey

const MIXTURE_SHORT = {
  lean: 'headline.found.lean',
  rich: 'headline.found.rich',
  falling: 'headline.found.falling',
} as const
const MIXTURE_NEAR = { lean: 'headline.found.lean-near', falling: 'headline.found.falling-near' } as const
const byDirection =
  (keys: Readonly<Partial<Record<JobFinding['direction'], TextKey>>>, other: TextKey): Saying =>
  ({ direction }) =>
    keys[direction] ?? other

/** A finding in a few words, for the headline. */
const SHORT_SAYS: Readonly<Record<FindingKind, Saying>> = {
  mixture: (f) =>
    f.order === 'unsure'
      ? MIXTURE_NEAR[f.direction === 'lean' ? 'lean' : 'falling']
      : MIXTURE_SHORT[f.direction as keyof typeof MIXTURE_SHORT],
  circuit: byDirection({ open: 'headline.found.open' }, 'headline.found.resistance'),
  misfire: () => 'headline.found.misfire',
  'firing-voltage': byDirection({ high: 'headline.found.firing-high' }, 'headline.found.firing-low'),
  'burn-time': byDirection({ low: 'headline.found.burn-short' }, 'headline.found.burn-long'),
  oscillation: () => 'headline.found.oscillation',
  compression: byDirection({ high: 'headline.found.compression-high' }, 'headline.found.compression-low'),
  'fuel-pressure': byDirection(
    { low: 'headline.found.fuel-pressure-low', high: 'headline.found.fuel-pressure-high' },
    'headline.found.fuel-pressure-falls',
  ),
  trim: byDirection({ lean: 'headline.found.trim-lean' }, 'headline.found.trim-rich'),
  gas: byDirection(
    { lean: 'headline.found.gas-lean', rich: 'headline.found.gas-rich' },
    'headline.found.gas-out',
  ),
  vacuum: byDirection({ low: 'headline.found.vacuum-low' }, 'headline.found.vacuum-high'),
  leak: byDirection({ answers: 'headline.found.leak' }, 'headline.found.leak-torn'),
  code: (f) => (f.where.cylinders.length > 0 ? 'headline.found.code-at' : 'headline.found.code'),
  part: () => 'headline.found.part',
  'idle-speed': () => 'headline.found.idle-swings',
}

/** A finding in a few words; off a warm idle with its condition and what decided. */
export function shortSays(finding: JobFinding): Says {
  const found = sentenceOf(SHORT_SAYS[finding.kind](finding), argsOf(finding))
  const { offIdle } = finding
  return offIdle
    ? sentence(OFF_IDLE[offIdle.basis].short, { found, condition: conditionSays(finding) })
    : found
}

const OFF_IDLE = {
  fellows: { short: 'headline.found.of-fellows', plain: 'page.found.of-fellows' },
  limit: { short: 'headline.found.of-limit', plain: 'page.found.of-limit' },
} as const satisfies Readonly<Record<Basis, object>>

/** Condition of a finding of the captures, a cold engine named. */
function conditionSays({ condition, offIdle }: JobFinding): Sentence {
  const said = sentence(CONDITION_WORDS[condition as keyof typeof CONDITION_WORDS])
  return offIdle?.running === 'cold' ? sentence('condition.cold', { condition: said }) : said
}

/** Under which condition a finding off a warm idle was made and what decided, in plain words. */
export const offIdleSays = (finding: JobFinding): Says[] =>
  finding.offIdle
    ? [sentence(OFF_IDLE[finding.offIdle.basis].plain, { condition: conditionSays(finding) })]
    : []

/** Verdict words that page one has whole sentences for, by where they lie. */
const BURN = {
  lean: {
    one: 'summary.lean-one',
    some: 'summary.lean-some',
    bank: 'summary.lean-bank',
    all: 'summary.lean-all',
  },
  rich: {
    one: 'summary.rich-one',
    some: 'summary.rich-some',
    bank: 'summary.rich-bank',
    all: 'summary.rich-all',
  },
  falling: {
    one: 'summary.falling-one',
    some: 'summary.falling-some',
    bank: 'summary.falling-bank',
    all: 'summary.falling-all',
  },
  near: {
    one: 'page.found.near-one',
    some: 'page.found.near',
    bank: 'page.found.near',
    all: 'page.found.near-all',
  },
  'low compression': {
    one: 'summary.low-compression-one',
    some: 'summary.low-compression-some',
    bank: 'summary.low-compression-bank',
    all: 'summary.low-compression-all',
  },
  open: {
    one: 'summary.open-secondary-one',
    some: 'summary.open-secondary-some',
    bank: 'summary.open-secondary-bank',
    all: 'summary.open-secondary-all',
  },
  resistance: {
    one: 'summary.external-resistance-one',
    some: 'summary.external-resistance-some',
    bank: 'summary.external-resistance-bank',
    all: 'summary.external-resistance-all',
  },
  missing: {
    one: 'summary.misfiring-one',
    some: 'summary.misfiring-some',
    bank: 'summary.misfiring-bank',
    all: 'summary.misfiring-all',
  },
} as const

const inWords =
  (words: (finding: JobFinding) => keyof typeof BURN): Saying =>
  (finding) => {
    const { scope, cylinders } = finding.where
    const of = BURN[words(finding)]
    if (scope === 'bank') return of.bank
    return scope === 'engine' ? of.all : cylinders.length === 1 ? of.one : of.some
  }

/** A finding in plain words, for page one. */
export const PLAIN_SAYS: Readonly<Record<FindingKind, Saying>> = {
  mixture: inWords((f) =>
    f.order === 'unsure'
      ? 'near'
      : f.direction === 'lean'
        ? 'lean'
        : f.direction === 'rich'
          ? 'rich'
          : 'falling',
  ),
  circuit: inWords((f) => (f.direction === 'open' ? 'open' : 'resistance')),
  misfire: inWords(() => 'missing'),
  'firing-voltage': byDirection({ high: 'page.found.firing-high' }, 'page.found.firing-low'),
  'burn-time': byDirection({ low: 'page.found.burn-short' }, 'page.found.burn-long'),
  oscillation: () => 'page.found.oscillation',
  compression: (f) =>
    f.direction === 'high' ? 'page.found.compression-high' : inWords(() => 'low compression')(f),
  'fuel-pressure': byDirection(
    { low: 'page.found.fuel-pressure-low', high: 'page.found.fuel-pressure-high' },
    'page.found.fuel-pressure-falls',
  ),
  trim: byDirection({ lean: 'page.found.trim-lean' }, 'page.found.trim-rich'),
  gas: byDirection({ lean: 'page.found.gas-lean', rich: 'page.found.gas-rich' }, 'page.found.gas-out'),
  vacuum: byDirection({ low: 'page.found.vacuum-low' }, 'page.found.vacuum-high'),
  leak: byDirection({ answers: 'page.found.leak' }, 'page.found.leak-torn'),
  code: () => 'page.found.code',
  part: () => 'page.found.part',
  'idle-speed': () => 'page.found.idle-swings',
}

/** The figure a finding rests on; undefined where its plain words hold it already, or it has none. */
const RISE = { limit: 'page.sure.rise', fellows: 'page.sure.rise-fellows' } as const
const FALL = { limit: 'page.sure.fall', fellows: 'page.sure.fall-fellows' } as const
/** At a warm idle the limit is the measure; else what decided. */
const basisOf = ({ offIdle }: JobFinding): Basis => offIdle?.basis ?? 'limit'

export const FIGURE_SAYS: Readonly<Record<FindingKind, (finding: JobFinding) => TextKey | undefined>> = {
  mixture: (f) => (f.direction === 'lean' ? RISE : FALL)[basisOf(f)],
  circuit: (f) => (f.direction === 'open' ? 'page.sure.misses' : 'page.sure.start'),
  misfire: () => 'page.sure.misses',
  'firing-voltage': (f) =>
    f.direction === 'high' && f.size?.unit === 'kV' && f.size.limitHigh !== undefined
      ? 'page.sure.firing'
      : undefined,
  'burn-time': () => undefined,
  oscillation: () => undefined,
  compression: (f) =>
    f.direction === 'low compression'
      ? FALL[basisOf(f)]
      : f.size?.unit === '%'
        ? 'page.sure.compression'
        : 'page.sure.compression-kpa',
  'fuel-pressure': () => undefined,
  trim: () => undefined,
  gas: () => undefined,
  vacuum: () => undefined,
  leak: () => undefined,
  code: () => undefined,
  part: () => undefined,
  'idle-speed': () => undefined,
}
