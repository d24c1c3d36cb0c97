import type { Result } from '../../records/result.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import type { PageInput } from './page-input.ts'

type Finding = Result['conclusion']['findings'][number]

/**
 * How a fault of each kind is usually felt, so that who complained of something can tell whether it is that; null where it
 * is felt in no one way. Common practice, no source.
 */
const FELT = {
  mixture: ({ direction }) => (direction === 'lean' ? 'report.felt.air' : 'report.felt.fuel'),
  circuit: () => 'report.felt.spark',
  misfire: () => 'report.felt.spark',
  'firing-voltage': () => 'report.felt.spark',
  'burn-time': () => 'report.felt.spark',
  oscillation: () => 'report.felt.spark',
  compression: () => 'report.felt.pressure',
  'fuel-pressure': () => 'report.felt.fuel-pressure',
  trim: ({ direction }) => (direction === 'lean' ? 'report.felt.air' : 'report.felt.fuel'),
  gas: () => null,
  vacuum: () => null,
  leak: () => 'report.felt.air',
  code: () => null,
  part: () => null,
  'idle-speed': () => 'report.felt.idle',
} as const satisfies Record<Finding['kind'], (finding: Finding) => WordKey | null>

/** Kinds of feeling told: the first of what was found. */
const MOST_FELT = 2

/** Whether what was found explains the complaint, as far as a report can tell: how such a fault is usually felt. */
export function complaintSentences({ result: { conclusion }, texts }: PageInput): string[] {
  const { findings, as_found: asFound } = conclusion
  if (asFound.class === 'in order') return [say(texts, 'report.felt.none')]
  const odd = (order: Finding['order']) => findings.filter((f) => f.state === 'as found' && f.order === order)
  const felt = [...odd('out of order'), ...odd('unsure')].flatMap((f) => FELT[f.kind](f) ?? [])
  return felt.length === 0
    ? [say(texts, 'report.felt.unknown')]
    : [
        ...[...new Set<WordKey>(felt)].slice(0, MOST_FELT).map((key) => say(texts, key)),
        say(texts, 'report.felt.other'),
      ]
}
