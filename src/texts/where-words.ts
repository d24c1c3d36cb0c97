import type { Texts } from './messages.ts'
import { sayLoose } from './say.ts'

/** Where a finding lies, as words that stand within a sentence ("on cylinder 5"), from its `scope`, `bank`, `cylinders` and `place`. */
export function whereWords(texts: Texts, args: Readonly<Record<string, unknown>>): string {
  const { scope, cylinders } = args
  const several = typeof cylinders === 'string' && cylinders.includes(',')
  const key =
    scope === 'place'
      ? 'where.place'
      : scope === 'bank'
        ? 'where.bank'
        : scope === 'cylinders'
          ? several
            ? 'where.cylinders'
            : 'where.cylinder'
          : cylinders === undefined
            ? 'where.engine'
            : 'where.all'
  return sayLoose(texts, key, args)
}
