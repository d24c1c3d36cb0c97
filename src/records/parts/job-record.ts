import { DEFAULT_VOLTAGE_UNCERTAINTY_PERCENT } from '../../job/checks/instrument.ts'
import type { Job } from '../../job/schema.ts'
import type { Result } from '../result.ts'

/** Expanded (k = 2) uncertainty of time taken where job.yaml states none; the report says that it is a default. */
const DEFAULT_TIME_UNCERTAINTY_PPM = 100

/**
 * The job as the technician gave it, with every optional field present as null.
 * @param shop  of the shop file: what job.yaml leaves out of the shop's particulars
 */
export function jobRecord(
  job: Job,
  vinCheck: Result['job']['vehicle']['vin_check'],
  shop: Partial<Job['shop']> = {},
): Result['job'] {
  const { vehicle, engine, instrument } = job
  return {
    work_order: job.work_order,
    opened: job.opened,
    closed: job.closed ?? null,
    shop: present({ ...shop, ...job.shop }),
    technician: present(job.technician),
    customer: job.customer ? present(job.customer) : null,
    vehicle: {
      vin: vehicle.vin ?? null,
      vin_check: vinCheck,
      plate: vehicle.plate ?? null,
      unit_number: vehicle.unit_number ?? null,
      year: vehicle.year ?? null,
      make: vehicle.make ?? null,
      model: vehicle.model ?? null,
      odometer: vehicle.odometer ?? null,
    },
    engine: {
      cylinders: engine.cylinders,
      strokes: engine.strokes,
      firing_order: engine.firing_order,
      ignition: engine.ignition,
      fuel: engine.fuel,
      pairs: engine.pairs ?? null,
      banks: engine.banks ?? null,
      displacement_l: engine.displacement_l ?? null,
    },
    complaint: job.complaint,
    cause: job.cause ?? null,
    correction: job.correction ?? null,
    instrument: {
      description: instrument?.description ?? null,
      calibration: instrument?.calibration ? present(instrument.calibration) : null,
      voltage_uncertainty_percent:
        instrument?.voltage_uncertainty_percent ?? DEFAULT_VOLTAGE_UNCERTAINTY_PERCENT,
      voltage_uncertainty_stated: instrument?.voltage_uncertainty_percent !== undefined,
      time_uncertainty_ppm: instrument?.time_uncertainty_ppm ?? DEFAULT_TIME_UNCERTAINTY_PPM,
      time_uncertainty_stated: instrument?.time_uncertainty_ppm !== undefined,
    },
    photos: (job.photos ?? []).map((p) => ({
      file: p.file,
      caption: p.caption ?? null,
      stage: p.stage ?? null,
    })),
  }
}

/** The fields that were given, as text. */
function present(fields: Readonly<Record<string, string | undefined>>): Record<string, string> {
  return Object.fromEntries(Object.entries(fields).filter((e): e is [string, string] => e[1] !== undefined))
}
