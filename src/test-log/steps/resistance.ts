import { limit } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { cylinderReadings, type StepKind } from '../step-kind.ts'
import { againstExpected, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

/** Ohms in one of the units a meter shows. */
const OHMS = { ohm: 1, kohm: 1e3, Mohm: 1e6 } as const
const UNITS = Object.keys(OHMS)
/** Ohms of a row; undefined where it has no figure. */
const ohmsOf = ({ value, unit }: LogEntry): number | undefined =>
  value === undefined || unit === undefined || !Object.hasOwn(OHMS, unit)
    ? undefined
    : value * OHMS[unit as keyof typeof OHMS]

/** Fewer fellows cannot say which of them is odd. */
const LEAST_OTHERS = 2

const outcomes = partState({
  off: [
    'fort',
    'forte',
    'elevee',
    'hoch',
    'high',
    'higher',
    'too high',
    'open',
    'open circuit',
    'ol',
    'o l',
    'infinite',
    'broken',
    'burnt',
    'low',
    'too low',
    'short*',
    'out',
    'out of spec',
    'out of limits',
    'bad',
    'faulty',
    'hoch',
    'zu hoch',
    'unendlich',
    'unterbrochen',
    'unterbrechung',
    'niedrig',
    'kurzschluss',
    'defekt',
    'eleve*',
    'trop eleve*',
    'infini',
    'coupe*',
    'coupure',
    'bas',
    'court circuit',
    'mauvais',
    'alto',
    'alta',
    'muy alta',
    'infinit*',
    'abiert*',
    'cortad*',
    'baja',
    'bajo',
    'cortocircuito',
    'mal',
  ],
})

/** Against the maker's limits; without them, of the secondary, against the other cylinders of the same test. */
function byFigure(row: LogEntry, rows: TestGroup, { limits }: StepContext): 'off' | 'in order' | undefined {
  const own = againstExpected(row)
  if (own) return own === 'in limits' ? 'in order' : 'off'
  const ohms = ohmsOf(row)
  if (ohms === undefined) return undefined
  const others = rows.filter((r) => r !== row).flatMap((r) => ohmsOf(r) ?? [])
  if (others.length < LEAST_OTHERS) return undefined
  const middle = median(others)!
  return ohms > middle * limit(limits, 'resistanceApartRatio') ? 'off' : 'in order'
}

const secondary: PartReader<'off' | 'in order'> = {
  outcomes,
  byFigure,
  states: {
    off: {
      says: 'tests.secondary-resistance.off',
      evidence: 'secondary-resistance-high',
      finding: 'out of limits',
    },
    'in order': {
      says: 'tests.secondary-resistance.in-order',
      evidence: 'secondary-resistance-in-order',
      finding: 'in limits',
    },
  },
  recorded: 'tests.secondary-resistance.recorded',
}

/**
 * Resistance of lead, plug connector or coil secondary of each cylinder. Leads differ with their length, so that without
 * the maker's limits only one far above its fellows counts.
 *
 * @source shop-practice; the vehicle maker's limits as logged
 */
export const secondaryResistance: StepKind = {
  title: 'report.step.secondary-resistance',
  needs: {},
  readings: cylinderReadings(UNITS, ['coil', 'rotor', 'coil lead']),
  neverNegative: true,
  usual: [{ unit: 'Mohm', least: 0, most: 50 }],
  outcome: partOutcomes(secondary, ['high', 'open', 'in order']),
  evidence: ['secondary-resistance-high', 'secondary-resistance-in-order'],
  cautions: ['high-voltage', 'hot'],
  read: (group, context) => readParts(group, context, secondary),
}

const primary: PartReader<'off' | 'in order'> = {
  outcomes,
  byFigure: (row, rows, context) => {
    const own = againstExpected(row)
    return own === undefined ? byFigure(row, rows, context) : own === 'in limits' ? 'in order' : 'off'
  },
  states: {
    off: {
      says: 'tests.primary-resistance.off',
      evidence: 'primary-resistance-off',
      finding: 'out of limits',
    },
    'in order': {
      says: 'tests.primary-resistance.in-order',
      evidence: 'primary-resistance-in-order',
      finding: 'in limits',
    },
  },
  recorded: 'tests.primary-resistance.recorded',
}

/** Resistance of a coil's primary winding. @source shop-practice; the vehicle maker's limits as logged */
export const primaryResistance: StepKind = {
  title: 'report.step.primary-resistance',
  needs: {},
  readings: cylinderReadings(UNITS, ['coil']),
  neverNegative: true,
  usual: [{ unit: 'ohm', least: 0, most: 100 }],
  outcome: partOutcomes(primary, ['high', 'open', 'low', 'in order']),
  evidence: ['primary-resistance-off', 'primary-resistance-in-order'],
  cautions: ['high-voltage', 'hot'],
  read: (group, context) => readParts(group, context, primary),
}
