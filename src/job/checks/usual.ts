import { problem } from '../../problems/problem.ts'
import { pathName, valueAt } from '../schema-problems.ts'
import type { KeyPath } from '../yaml-document.ts'
import type { Check } from './check.ts'

/** Figures outside these are mostly slips: a share instead of percent, cubic centimetres for litres (common practice, no source). */
const USUAL: readonly { path: KeyPath; least: number; most: number; unit: string }[] = [
  { path: ['instrument', 'voltage_uncertainty_percent'], least: 0.5, most: 50, unit: '%' },
  { path: ['instrument', 'time_uncertainty_ppm'], least: 0.01, most: 10_000, unit: 'ppm' },
  { path: ['engine', 'displacement_l'], least: 0.05, most: 20, unit: 'l' },
]

/** Warns of figures that are possible and most unlikely. */
export const usual: Check = function* (_, yaml) {
  for (const { path, least, most, unit } of USUAL) {
    const value = valueAt(yaml.data, path)
    if (typeof value !== 'number' || value <= 0 || (value >= least && value <= most)) continue
    yield problem(
      'unusual-value',
      { ...yaml.valuePlace(path), severity: 'warn' },
      { key: pathName(path), found: `${yaml.written(path)} ${unit}`, usual: `${least} … ${most} ${unit}` },
    )
  }
}
