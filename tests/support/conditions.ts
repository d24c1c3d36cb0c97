import {
  distributorCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { IDLE_GAP, type CylinderState } from '../../src/model/cylinder-state.ts'
import { GOOD_RECORDER, POOR_RECORDER, type Recorder } from '../../src/model/recorder.ts'

/** What a reader should see. `level` with a remark on the firing voltage is still level. */
export type Reading = 'level' | 'lean' | 'falling' | 'external resistance' | 'open secondary' | 'misfiring'

/** A condition of one cylinder in three severities, slight to gross. */
export interface Condition {
  name: string
  severities: readonly [Severity, Severity, Severity]
}

export interface Severity {
  state: Partial<CylinderState>
  /** Readings that are right; the first is the one hoped for. Borderline lines are told by the true late rise. */
  accept: readonly Reading[]
}

const three = (
  accept: readonly Reading[],
  states: readonly [Partial<CylinderState>, Partial<CylinderState>, Partial<CylinderState>],
): Condition['severities'] => [
  { state: states[0], accept },
  { state: states[1], accept },
  { state: states[2], accept },
]

const squeezed = (pressureKpa: number): CylinderState['gap'] => ({ ...IDLE_GAP, pressureKpa })
const gapped = (gapMm: number): CylinderState['gap'] => ({ ...IDLE_GAP, gapMm })

/** Sizes are this project's choice within what the trade calls slight, plain and gross. */
export const CONDITIONS: readonly Condition[] = [
  {
    name: 'healthy',
    severities: three(
      ['level'],
      [{ mixtureScatterKv: 0.03 }, {}, { mixtureScatterKv: 0.08, glowScatter: 0.035 }],
    ),
  },
  {
    name: 'lean',
    severities: three(
      ['lean'],
      [
        { mixtureKv: 0.42, breakdownFactor: 1.03 },
        { mixtureKv: 0.75, breakdownFactor: 1.06 },
        { mixtureKv: 1.2, breakdownFactor: 1.1, turbulenceKv: 0.03 },
      ],
    ),
  },
  {
    name: 'rich',
    severities: three(['falling'], [{ mixtureKv: -0.42 }, { mixtureKv: -0.6 }, { mixtureKv: -0.8 }]),
  },
  {
    name: 'low compression',
    severities: three(
      ['falling'],
      [
        { gap: squeezed(410), mixtureKv: -0.36 },
        { gap: squeezed(340), mixtureKv: -0.5 },
        { gap: squeezed(270), mixtureKv: -0.58 },
      ],
    ),
  },
  {
    name: 'outside resistance',
    severities: three(['external resistance'], [{ seriesKohm: 32 }, { seriesKohm: 48 }, { seriesKohm: 70 }]),
  },
  {
    name: 'worn plug',
    severities: three(['level'], [{ gap: gapped(1.25) }, { gap: gapped(1.5) }, { gap: gapped(1.8) }]),
  },
  {
    name: 'narrow gap',
    severities: three(['level'], [{ gap: gapped(0.8) }, { gap: gapped(0.65) }, { gap: gapped(0.5) }]),
  },
  {
    name: 'cracked plug',
    severities: three(
      ['level'],
      [{ breakdownFactor: 0.75 }, { breakdownFactor: 0.6 }, { breakdownFactor: 0.45 }],
    ),
  },
  {
    name: 'open lead',
    severities: [
      { state: { openShare: 0.3 }, accept: ['open secondary', 'misfiring'] },
      { state: { openShare: 0.7 }, accept: ['open secondary', 'misfiring'] },
      { state: { openShare: 1 }, accept: ['open secondary'] },
    ],
  },
  {
    name: 'gap beyond the coil',
    severities: three(
      ['open secondary', 'misfiring'],
      [{ breakdownFactor: 3.7 }, { breakdownFactor: 3.95 }, { breakdownFactor: 5.5 }],
    ),
  },
  {
    name: 'charge not lit',
    severities: three(
      ['level', 'misfiring'],
      [{ misfireShare: 0.15 }, { misfireShare: 0.4 }, { misfireShare: 0.8 }],
    ),
  },
  {
    name: 'driver drops sparks',
    severities: three(['misfiring'], [{ noSparkShare: 0.2 }, { noSparkShare: 0.4 }, { noSparkShare: 0.7 }]),
  },
  {
    name: 'strong turbulence',
    severities: three(['level'], [{ turbulenceKv: 0.04 }, { turbulenceKv: 0.08 }, { turbulenceKv: 0.14 }]),
  },
  {
    name: 'restrikes',
    severities: three(['level'], [{ restrikes: 0.4 }, { restrikes: 1 }, { restrikes: 2 }]),
  },
  {
    name: 'lean behind resistance',
    severities: three(
      ['external resistance'],
      [
        { seriesKohm: 45, mixtureKv: 0.4 },
        { seriesKohm: 55, mixtureKv: 0.6 },
        { seriesKohm: 65, mixtureKv: 0.9 },
      ],
    ),
  },
]

export const RECORDERS: readonly { name: string; recorder: Recorder }[] = [
  { name: '500 kS/s, 12 bits', recorder: GOOD_RECORDER },
  { name: '100 kS/s, 8 bits', recorder: POOR_RECORDER },
]

/** The cylinder that has the condition; the other three are healthy. */
export const AFFECTED_CYLINDER = 3

/** A four-cylinder idle with one cylinder in a condition, long enough for 13 events a cylinder unless told otherwise. */
export function conditionCapture(
  severity: Severity,
  name: string,
  options: { recorder: Recorder; seed: number; durationS?: number },
): CaptureParameters {
  const healthy = distributorCapture({
    cylinders: 4,
    seed: options.seed,
    durationS: options.durationS ?? 2.2,
  })
  const state = { ...severity.state, condition: name }
  return { ...withCylinders(healthy, new Map([[AFFECTED_CYLINDER, state]])), recorder: options.recorder }
}
