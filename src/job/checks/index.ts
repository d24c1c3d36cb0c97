import { banks } from './banks.ts'
import { captureChannels } from './capture-channels.ts'
import { channels } from './channels.ts'
import type { Check } from './check.ts'
import { columns } from './columns.ts'
import { calibration, dates, takenWithin } from './dates.ts'
import { firingOrder } from './firing-order.ts'
import { statedUncertainty } from './instrument.ts'
import { pairs } from './pairs.ts'
import { review } from './review.ts'
import { stages } from './stages.ts'
import { usual } from './usual.ts'
import { vin } from './vin.ts'
import { wordQuotes } from './word-quotes.ts'
import { workOrder } from './work-order.ts'

/** Every check of job.yaml beyond its schema. */
export const CHECKS: readonly Check[] = [
  workOrder,
  wordQuotes,
  dates,
  takenWithin,
  vin,
  firingOrder,
  pairs,
  banks,
  statedUncertainty,
  usual,
  calibration,
  stages,
  channels,
  columns,
  captureChannels,
  review,
]
