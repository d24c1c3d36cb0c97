/**
 * A shape the size of a response is read with, 1 rpm at its highest instant (not at its highest step: a short response
 * peaks between readings).
 */
export interface EffectShape {
  /** Height in every step from that of the onset on. */
  height: Float64Array
  /** Onset within its step, as a share of it. */
  within: number
}

/**
 * Finding a response needs only shapes near the real one (response-shapes.ts); its size needs the real one to be among
 * them, or nearly so. Vapour builds up in the manifold and washes out of it at different rates, the engine follows with
 * a lag, and the idle control may pull back, slowly or fast. All constants: project-judgement.
 */
const LASTS_S = [1, 1.3, 1.7, 2.2, 2.8, 3.4, 4.1, 5]
const RISE_S = [0.15, 0.45]
const FALL_S = [0.2, 0.5, 0.9]
/** Time constant of the idle control where it pulls back, s. */
const PULL_S = [Infinity, 5, 2]
/** The search for the onset moves by whole steps; these lie between. */
const WITHIN = [0, 0.5]
/** How long after the change a shape is followed, s. */
const AFTER_S = 2
const SUBSTEPS = 10

interface Constants {
  lastsS: number
  riseS: number
  fallS: number
  pullS: number
  within: number
}

/** All shapes on steps of `stepS`. */
export const effectShapes = (stepS: number): readonly EffectShape[] =>
  every().map((constants) => ({ within: constants.within, height: heightOf(constants, stepS) }))

/** A port closed or opened is followed for so long, and the change does not end within it, s. */
const STEP_FOR_S = 5

/** The same of a port closed or opened. */
export const steppedEffectShapes = (stepS: number): readonly EffectShape[] =>
  RISE_S.flatMap((riseS) =>
    STEP_PULL_S.flatMap((pullS) =>
      WITHIN.map((within) => {
        const height = heightOf({ lastsS: STEP_FOR_S + AFTER_S, riseS, fallS: riseS, pullS, within }, stepS)
        return { within, height: height.subarray(0, Math.round(STEP_FOR_S / stepS)) }
      }),
    ),
  )
const STEP_PULL_S = [Infinity, 9, 5, 3, 2]

const every = (): Constants[] =>
  LASTS_S.flatMap((lastsS) =>
    RISE_S.flatMap((riseS) =>
      FALL_S.flatMap((fallS) =>
        PULL_S.flatMap((pullS) => WITHIN.map((within) => ({ lastsS, riseS, fallS, pullS, within }))),
      ),
    ),
  )

function heightOf({ lastsS, riseS, fallS, pullS, within }: Constants, stepS: number): Float64Array {
  const dt = stepS / SUBSTEPS
  const sums = new Float64Array(Math.ceil((lastsS + AFTER_S) / stepS))
  let asked = 0
  let taken = 0
  let highest = 0
  for (let i = 0; i < sums.length * SUBSTEPS; i++) {
    const sinceS = i * dt - within * stepS
    const on = sinceS >= 0 && sinceS < lastsS
    asked += ((Number(on) - asked) * dt) / (on ? riseS : fallS)
    taken += ((asked - taken) * dt) / pullS
    highest = Math.max(highest, asked - taken)
    sums[Math.floor(i / SUBSTEPS)]! += asked - taken
  }
  return sums.map((sum) => sum / SUBSTEPS / highest)
}
