import type { TextArgs, Texts } from './messages.ts'
import { say } from './say.ts'

/** Where a finding lies, as words that stand within a sentence ("on cylinder 5"), from its `scope`, `bank`, `cylinders` and `place`. */
export function whereWords(texts: Texts, args: TextArgs): string {
  const cylinders = args['cylinders']
  switch (args['scope']) {
    case 'place':
      return say(texts, 'where.place', args)
    case 'bank':
      return say(texts, 'where.bank', args)
    case 'cylinders':
      return say(
        texts,
        typeof cylinders === 'string' && cylinders.includes(',') ? 'where.cylinders' : 'where.cylinder',
        args,
      )
    default:
      return say(texts, cylinders === undefined ? 'where.engine' : 'where.all', args)
  }
}
