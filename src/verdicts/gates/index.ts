import type { QualityRemark } from '../../ignition/event.ts'
import type { Limits } from '../../limits/limits.ts'
import { burnShort } from './burn-short.ts'
import { clockJumps } from './clock-jumps.ts'
import { coldEngine } from './cold-engine.ts'
import { cranking } from './cranking.ts'
import type { GateInput } from './define-gate.ts'
import { eventsLeftOut } from './events-left-out.ts'
import { fewEvents } from './few-events.ts'
import { frames } from './frames.ts'
import { levelDrift } from './level-drift.ts'
import { lineSlow } from './line-slow.ts'
import { notAtIdle } from './not-at-idle.ts'
import { ratioUnknown } from './ratio-unknown.ts'
import { recordingOnly } from './recording-only.ts'
import { classWithSpeed, riseWithSpeed } from './rise-with-speed.ts'
import { stepsCoarse } from './steps-coarse.ts'
import { wholeCoil } from './whole-coil.ts'

/**
 * What a capture must pass before it is judged, in the order the remarks are shown: the gravest first, since the first
 * one that forbids a verdict is given as its reason. Clipping, slow tops, hum, direction and sync are remarked on where
 * they are found (ignition/remarks.ts).
 */
export const GATES = [
  fewEvents,
  lineSlow,
  stepsCoarse,
  levelDrift,
  coldEngine,
  cranking,
  notAtIdle,
  ratioUnknown,
  wholeCoil,
  recordingOnly,
  classWithSpeed,
  riseWithSpeed,
  burnShort,
  eventsLeftOut,
  clockJumps,
  frames,
] as const

/** Remarks of every gate on one capture. */
export const lookThrough = (input: GateInput, limits: Limits): QualityRemark[] =>
  GATES.flatMap((gate) => gate.look(input, limits))
