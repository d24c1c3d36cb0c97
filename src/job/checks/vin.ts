import { problem } from '../../problems/problem.ts'
import { excerpt } from '../excerpt.ts'
import { checkVin } from '../vin.ts'
import type { Check } from './check.ts'

/** Warns of a VIN whose form or check digit is wrong; only some markets use the digit, so it never refuses. */
export const vin: Check = function* ({ vin: given }, yaml) {
  if (given === undefined) return
  const place = { ...yaml.valuePlace(['vehicle', 'vin']), severity: 'warn' as const }
  const { check, expected } = checkVin(given)
  if (check === 'not a VIN') yield problem('vin-shape', place, { vin: excerpt(given) })
  if (check === 'fails') yield problem('vin-check-digit', place, { vin: given, expected: expected! })
}
