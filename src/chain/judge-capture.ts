import type { Capture } from '../capture/capture.ts'
import type { CaptureEvents } from '../ignition/event.ts'
import type { JudgedCylinder } from '../verdicts/judge-engine.ts'
import { judge } from './phases/judge.ts'
import { judgeable, type MeasuredCapture } from './phases/measure-captures.ts'
import { findIn } from './read-and-find.ts'
import { takeFound, type TakeAbout } from './take-capture.ts'

/** What measuring and judging make of one capture. */
export interface JudgedCapture {
  found: CaptureEvents
  measured: MeasuredCapture
  judged: readonly JudgedCylinder[]
}

/**
 * One capture that was read, through the same steps as a job that holds no other and has no log: for captures whose
 * truth is known.
 *
 * @throws JobError where the capture is refused
 */
export function judgeCapture(capture: Capture, about: Omit<TakeAbout, 'reading'>): JudgedCapture {
  const { found } = findIn(capture, about.engine)
  const measured = judgeable(takeFound({ capture, found }, about), capture.entry, about)
  const { judged } = judge([measured], {
    compression: new Map(),
    ignition: about.engine.ignition,
    limits: about.limits,
  })
  return { found, measured, judged }
}
