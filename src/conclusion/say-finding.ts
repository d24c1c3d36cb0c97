import type { Says } from '../test-log/findings.ts'
import type { JobFinding } from './finding.ts'
import type { FindingKind } from './words.ts'

/**
 * Arguments of a finding's sentences: where it lies (`scope`, `bank`, `cylinders`, `place`), its figure and limits.
 * Records put the words of the place in as {where}.
 */
export function argsOf({ where, size, reading, unsure }: JobFinding): Says['args'] {
  return {
    scope: where.scope,
    ...(where.bank === undefined ? {} : { bank: where.bank }),
    ...(where.cylinders.length ? { cylinders: where.cylinders.join(', ') } : {}),
    ...(where.place === undefined ? {} : { place: where.place }),
    ...(unsure.length ? { unsure: unsure.join(', ') } : {}),
    ...(reading === undefined ? {} : { reading }),
    ...(size
      ? {
          size: { value: size.value, low: size.low, high: size.high, unit: size.unit as never },
          ...(size.limitLow === undefined ? {} : { limitLow: size.limitLow }),
          ...(size.limitHigh === undefined ? {} : { limitHigh: size.limitHigh }),
        }
      : {}),
  }
}

type Saying = (finding: JobFinding) => string

const MIXTURE_SHORT = {
  lean: 'headline.found.lean',
  rich: 'headline.found.rich',
  falling: 'headline.found.falling',
} as const
const MIXTURE_NEAR = { lean: 'headline.found.lean-near', falling: 'headline.found.falling-near' } as const
const byDirection =
  (keys: Readonly<Partial<Record<JobFinding['direction'], string>>>, other: string): Saying =>
  ({ direction }) =>
    keys[direction] ?? other

/** A finding in a few words, for the headline. */
export const SHORT_SAYS: Readonly<Record<FindingKind, Saying>> = {
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
  code: () => 'headline.found.code',
  'idle-speed': () => 'headline.found.idle-swings',
}
