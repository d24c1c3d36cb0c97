import { plateMark, vinMark } from '../job/vehicle-marks.ts'
import type { FleetRow } from './fleet-row.ts'

/** The vehicle of a row: `VIN …`, `unit …`, `plate …` where it has nothing better, or empty where the job names none. */
export type VehicleKey = string

/** Unit numbers are a customer's own. Empty for a row without one. */
export const unitKey = ({ unitNumber, customer }: Pick<FleetRow, 'unitNumber' | 'customer'>): string =>
  unitNumber === '' ? '' : `${customer.trim().toLowerCase()}\0${unitNumber.trim().toLowerCase()}`

/**
 * Which vehicle each row of one unit number is of. The VIN decides where it is given. A row without one is taken for the
 * vehicle that bears this unit number, unless two vehicles with a VIN do: numbers are given again, and nobody can tell.
 *
 * @param rows  all rows with the same `unitKey`
 */
export function vehicleKeys(
  rows: readonly Pick<FleetRow, 'vin' | 'unitNumber' | 'customer'>[],
): VehicleKey[] {
  const vins = new Set(rows.map((row) => vinKey(row)).filter((key) => key !== ''))
  const [only, another] = vins
  return rows.map(
    (row) => vinKey(row) || (only !== undefined && another === undefined ? only : unitName(row)),
  )
}

/** Vehicle of a row that has no unit number: its VIN, else its plate, a weak identity since plates move. */
export const vinOrPlateKey = (row: Pick<FleetRow, 'vin' | 'plate'>): VehicleKey =>
  vinKey(row) || (row.plate.trim() === '' ? '' : `plate ${plateMark(row.plate)}`)

const vinKey = ({ vin }: Pick<FleetRow, 'vin'>): VehicleKey => (vin === '' ? '' : `VIN ${vinMark(vin)}`)

const unitName = ({ unitNumber, customer }: Pick<FleetRow, 'unitNumber' | 'customer'>): VehicleKey =>
  unitNumber === '' ? '' : `unit ${unitNumber.trim()}${customer === '' ? '' : ` (${customer.trim()})`}`
