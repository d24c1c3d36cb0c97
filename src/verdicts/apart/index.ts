import type { ApartFinding } from './apart-finding.ts'
import { burnTime } from './burn-time.ts'
import { firingVoltage } from './firing-voltage.ts'
import { oscillations } from './oscillations.ts'
import type { ReadInput, Reading } from './reading.ts'

/** Figures read beside the mixture, in the order they are said. */
const READINGS: readonly Reading[] = [firingVoltage, burnTime, oscillations]

/** Everything of a cylinder that stands apart, beside whatever its mixture is. */
export const standsApart = (input: ReadInput): ApartFinding[] => READINGS.flatMap((r) => r.look(input))
