import type { Says } from '../../test-log/findings.ts'
import type { Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { toDigits } from '../round.ts'
import type { Statement } from '../result.ts'

/** A sentence for the record: its key and arguments as data, and its words in the report's language. */
export function statement(texts: Texts, { key, args }: Says): Statement {
  const kept = Object.fromEntries(Object.entries(args).map(([name, arg]) => [
    name,
    typeof arg === 'string' ? arg
      : typeof arg === 'number' ? toDigits(arg)
        : { value: toDigits(arg.value), low: toDigits(arg.low), high: toDigits(arg.high), unit: arg.unit },
  ]))
  return { key, args: kept, text: say(texts, key, args) }
}
