import type { Engine } from '../schema.ts'
import { inconsistent, missingKey, repeated, type Check } from './check.ts'

/**
 * Pairs are given for wasted spark and for nothing else; they share out the cylinders, and the two of a pair fire
 * half a cycle apart, since both pistons have to be at the top together.
 */
export const pairs: Check = function* ({ engine }, yaml) {
  if (!engine) return
  const path = ['engine', 'pairs']
  if (engine.ignition !== 'wasted-spark') {
    if (engine.pairs) yield inconsistent(yaml, path, { expected: 'phrase.no-pairs' })
  } else if (!engine.pairs) yield missingKey(yaml, path)
  else if (!sharesOut(engine, engine.pairs))
    yield inconsistent(yaml, path, { expected: 'phrase.pairs-share-out' })
  else {
    for (const [i, pair] of engine.pairs.entries()) {
      if (!halfACycleApart(engine.firing_order, pair))
        yield inconsistent(yaml, [...path, i], { expected: 'phrase.pair-half-cycle' })
    }
  }
}

function sharesOut({ cylinders }: Engine, listed: readonly (readonly number[])[]): boolean {
  const all = listed.flat()
  return all.length === cylinders && repeated(all).length === 0 && all.every((n) => n <= cylinders)
}

/** True as well where the order does not name both: that is the firing order's own problem. */
function halfACycleApart(order: readonly number[], [a, b]: readonly [number, number]): boolean {
  const [first, second] = [order.indexOf(a), order.indexOf(b)]
  return first < 0 || second < 0 || 2 * Math.abs(first - second) === order.length
}
