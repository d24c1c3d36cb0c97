import { plateMark, vinMark } from '../job/vehicle-marks.ts'

/** What tells a vehicle, as a record or a job has it; empty where it is not stated. */
export interface VehicleMarks {
  vin: string
  unit: string
  customer: string
  plate: string
  /** Cylinders and firing order. */
  engine: string
}

/** By what two records are taken to be of one vehicle; a plate is weak, since it can move to another car. */
export type Identity = 'vin' | 'unit' | 'plate'

interface Marked {
  customer?: { name?: string | undefined } | Readonly<Record<string, string>> | null | undefined
  vehicle: {
    vin?: string | null | undefined
    unit_number?: string | null | undefined
    plate?: string | null | undefined
  }
  engine: { cylinders: number; firing_order: readonly number[] }
}

/** The marks of a job, as job.yaml or its record has it. */
export const marksOf = ({ customer, vehicle, engine }: Marked): VehicleMarks => ({
  vin: vinMark(vehicle.vin ?? ''),
  unit: (vehicle.unit_number ?? '').trim().toLowerCase(),
  customer: (customer?.name ?? '').trim().toLowerCase(),
  plate: plateMark(vehicle.plate ?? ''),
  engine: `${engine.cylinders} ${engine.firing_order.join('-')}`,
})

/** The strongest mark that both bear decides: two VINs that differ are two vehicles, whatever else agrees. */
export function sameVehicle(a: VehicleMarks, b: VehicleMarks): Identity | undefined {
  if (a.vin !== '' && b.vin !== '') return a.vin === b.vin ? 'vin' : undefined
  if (a.unit !== '' && b.unit !== '')
    return a.unit === b.unit && a.customer === b.customer ? 'unit' : undefined
  return a.plate !== '' && a.plate === b.plate ? 'plate' : undefined
}
