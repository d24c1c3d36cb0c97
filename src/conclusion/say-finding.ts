import { ownWords, sentence, sentenceOf, type Sentence } from '../texts/messages.ts'
import { CONDITION_WORDS } from '../job/job-words.ts'
import type { Step } from '../job/log-steps.ts'
import type { Basis } from '../verdicts/define-rule.ts'
import { STEP_KINDS } from '../test-log/steps/index.ts'
import type { Says } from '../test-log/findings.ts'
import type { JobFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'

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

/** A finding in a few words; off a warm idle with its condition and what decided. */
export function shortSays(finding: JobFinding): Says {
  const found = sentenceOf(FINDINGS[finding.kind].short(finding), argsOf(finding))
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
