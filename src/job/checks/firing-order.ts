import { excerpt } from '../excerpt.ts'
import { inconsistent, repeated, type Check } from './check.ts'

/** The firing order names each cylinder of the engine once. */
export const firingOrder: Check = function* ({ engine }, yaml) {
  if (!engine) return
  const { cylinders, firing_order: order } = engine
  const whole =
    order.length === cylinders && repeated(order).length === 0 && order.every((n) => n <= cylinders)
  if (whole) return
  const found = `${excerpt(`[${order.join(', ')}]`)}, cylinders: ${cylinders}`
  yield inconsistent(yaml, ['engine', 'firing_order'], { found, expected: 'phrase.firing-order' })
}
