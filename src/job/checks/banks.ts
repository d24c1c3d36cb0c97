import { duplicate, inconsistent, type Check } from './check.ts'

/** A bank holds cylinders of the engine, and no cylinder is in two places. */
export const banks: Check = function* ({ engine }, yaml) {
  const seen = new Set<number>()
  for (const [name, cylinders] of Object.entries(engine?.banks ?? {})) {
    for (const [i, cylinder] of cylinders.entries()) {
      const path = ['engine', 'banks', name, i]
      if (cylinder > engine!.cylinders)
        yield inconsistent(yaml, path, { expected: `1 … ${engine!.cylinders}` })
      else if (seen.has(cylinder)) yield duplicate(yaml, path, String(cylinder))
      seen.add(cylinder)
    }
  }
}
