import type { Says } from '../../test-log/findings.ts'
import type { TextArg, Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { toDigits } from '../round.ts'
import type { Statement } from '../result.ts'

/**
 * A sentence for the record: its key and arguments as data, and its words in the report's language. An argument that is
 * a key of words (`gate.…`, `report.absent.…`) is kept as that key and said in words.
 */
export function statement(texts: Texts, { key, args }: Says): Statement {
  const kept = Object.fromEntries(Object.entries(args).map(([name, arg]) => [
    name,
    typeof arg === 'string' ? arg
      : typeof arg === 'number' ? toDigits(arg)
        : { value: toDigits(arg.value), low: toDigits(arg.low), high: toDigits(arg.high), unit: arg.unit },
  ]))
  const said = Object.fromEntries(Object.entries(args).map(([name, arg]) => [name, inWords(texts, arg)]))
  return { key, args: kept, text: say(texts, key, said) }
}

const KEY_OF_WORDS = /^(gate|report\.absent)\.[a-z-]+$/

const inWords = (texts: Texts, arg: TextArg): TextArg =>
  typeof arg === 'string' && KEY_OF_WORDS.test(arg) && Object.hasOwn(texts.templates, arg) ? say(texts, arg) : arg
