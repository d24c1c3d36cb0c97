import type { Result } from '../../records/result.ts'
import type { WordKey } from '../../texts/messages.ts'

/** What somebody who decides on a claim would still ask for: each is told from the record alone. */
const LACKS = {
  'report.lacks.vin': ({ job }) => job.vehicle.vin === null,
  'report.lacks.vin-check': ({ job }) => ['fails', 'not a VIN'].includes(job.vehicle.vin_check),
  'report.lacks.odometer': ({ job }) => job.vehicle.odometer === null,
  'report.lacks.cause': ({ job }) => job.cause === null,
  'report.lacks.correction': ({ job }) => job.correction === null,
  'report.lacks.repair': ({ tests }) => !tests.some(({ step }) => step === 'repair'),
  'report.lacks.proof': ({ repair }) => repair.verdict !== 'repair confirmed',
  'report.lacks.closed': ({ job }) => job.closed === null,
  'report.lacks.calibration': ({ job }) => job.instrument.calibration === null,
  'report.lacks.uncertainty': ({ job }) => !job.instrument.voltage_uncertainty_stated,
  'report.lacks.signature': ({ program }) => program.signing_key === undefined,
} as const satisfies Partial<Record<WordKey, (result: Result) => boolean>>

export const claimLacks = (result: Result): (keyof typeof LACKS)[] =>
  (Object.keys(LACKS) as (keyof typeof LACKS)[]).filter((key) => LACKS[key](result))
