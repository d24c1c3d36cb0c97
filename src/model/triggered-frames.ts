import type { CaptureParameters } from './capture-parameters.ts'
import type { ClockFault } from './recorder.ts'
import { simulateCapture } from './simulate-capture.ts'

/** Enough to draw when the ignitions come, which do not depend on the recorder. */
const SCHEDULE_HZ = 1000

/**
 * The same capture by a recorder in triggered mode: a frame at every so many firings of one cylinder, and nothing of the
 * time between frames.
 *
 * @param trigger  the cylinder, and how many of its firings apart two frames are; the first firing is let pass
 * @param frame    how long before and after the breakdown a frame reaches, s
 */
export function triggeredFrames(
  parameters: CaptureParameters,
  { cylinder, every }: { cylinder: number; every: number },
  { beforeS, afterS }: { beforeS: number; afterS: number },
): CaptureParameters {
  const { recorder, durationS } = parameters
  const { truth } = simulateCapture({ ...parameters, recorder: { ...recorder, sampleHz: SCHEDULE_HZ } })
  const triggers = truth.events
    .filter((e) => e.cylinder === cylinder && e.kind === 'firing')
    .map((e) => e.breakdownS)
    .filter((atS, i) => i % every === 1 % every && atS + afterS < durationS)
  const faults: ClockFault[] = []
  let fromS = 0
  for (const toS of [...triggers.map((atS) => atS - beforeS), durationS]) {
    const rows = Math.round((toS - fromS) * recorder.sampleHz)
    if (rows > 0) faults.push({ kind: 'dropped', atS: fromS, rows })
    fromS = toS + beforeS + afterS
  }
  return { ...parameters, recorder: { ...recorder, faults: [...recorder.faults, ...faults] } }
}
