/**
 * Shapes a response can take, 1 rpm at their highest: the engine follows a change of fuel with a lag, stays for some seconds and
 * comes back. Where the idle control pushes back, the height dies away meanwhile and undershoots afterwards.
 * The lag and the push are this project's judgement; the test needs only shapes that are near the real ones.
 */
export interface ResponseShape {
  /** Length of the change that is followed, s. */
  lastsS: number
  /** Height in every step from the onset on. */
  height: Float64Array
}

const LASTS_S = [1, 1.6, 2.6, 4, 5.5]
/** Time constant of the engine at idle, s. */
const LAG_S = 0.25
/** Time constant of the idle control where it pushes back, s; undefined where it does not. */
const PUSH_S = [undefined, 3]
/** How long after the change the shape is followed, s. */
const AFTER_S = 1.5
const SUBSTEPS = 10
/** A port that is closed stays closed: the change is followed for so long and does not end within it, s. */
const STEP_FOR_S = 5

/** Shapes of a port closed or opened, on steps of `stepS`: the speed goes and stays, or the idle control brings it back. */
export const steppedShapes = (stepS: number): readonly ResponseShape[] =>
  STEP_PUSH_S.map((pushS) => {
    const height = follow({ lastsS: STEP_FOR_S, pushS, stepS }).subarray(0, Math.round(STEP_FOR_S / stepS))
    return { lastsS: STEP_FOR_S, height }
  })
const STEP_PUSH_S = [undefined, 6, 3]

/** All shapes on steps of `stepS`. */
export const responseShapes = (stepS: number): readonly ResponseShape[] =>
  PUSH_S.flatMap((pushS) => LASTS_S.map((lastsS) => ({ lastsS, height: follow({ lastsS, pushS, stepS }) })))

function follow(shape: { lastsS: number; pushS: number | undefined; stepS: number }): Float64Array {
  const { lastsS, pushS, stepS } = shape
  const dt = stepS / SUBSTEPS
  const height = new Float64Array(Math.ceil((lastsS + AFTER_S) / stepS))
  let speed = 0
  let push = 0
  for (let i = 0; i < height.length; i++) {
    let sum = 0
    for (let k = 0; k < SUBSTEPS; k++) {
      const drive = (i * SUBSTEPS + k) * dt < lastsS ? 1 : 0
      speed += ((drive - push - speed) * dt) / LAG_S
      if (pushS !== undefined) push += (speed * dt) / pushS
      sum += speed
    }
    height[i] = sum / SUBSTEPS
  }
  const highest = Math.max(...height)
  return height.map((h) => h / highest)
}

/** What the idle model is surprised by when a shape passes: the shape less its own prediction. */
export function surpriseOf({ height }: { height: Float64Array }, lags: Float64Array): Float64Array {
  return height.map((v, i) => {
    let rest = v
    for (let k = 0; k < lags.length && k < i; k++) rest -= lags[k]! * height[i - 1 - k]!
    return rest
  })
}
