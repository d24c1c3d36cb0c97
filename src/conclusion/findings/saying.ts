import type { Basis } from '../../verdicts/define-rule.ts'
import type { TextKey } from '../../texts/messages.ts'
import type { JobFinding } from '../finding.ts'

/** Which sentence says a finding. */
export type Saying = (finding: JobFinding) => TextKey

/** By the way a finding lies; `other` for the ways without a sentence of their own. */
export const byDirection =
  (keys: Readonly<Partial<Record<JobFinding['direction'], TextKey>>>, other: TextKey): Saying =>
  ({ direction }) =>
    keys[direction] ?? other

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

/** Plain words by where the cylinders lie: one, some, a bank, all. */
export const inWords =
  (words: (finding: JobFinding) => keyof typeof BURN): Saying =>
  (finding) => {
    const { scope, cylinders } = finding.where
    const of = BURN[words(finding)]
    if (scope === 'bank') return of.bank
    return scope === 'engine' ? of.all : cylinders.length === 1 ? of.one : of.some
  }

/** A line that falls, by what it was held against. */
export const FALL = { limit: 'page.sure.fall', fellows: 'page.sure.fall-fellows' } as const

/** At a warm idle the limit is the measure; else what decided. */
export const measureOf = ({ offIdle }: JobFinding): Basis => offIdle?.basis ?? 'limit'
