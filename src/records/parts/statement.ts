import type { Arg, Args, Sentence, Texts } from '../../texts/messages.ts'
import { sayAgain } from '../../texts/say.ts'
import { toDigits } from '../round.ts'
import type { Statement } from '../result.ts'

/**
 * A sentence for the record: its key and arguments as data, figures in the record's digits, and its words in the report's
 * language. They are said from the data as kept, so that anybody can say the record again in another language.
 */
export function statement(texts: Texts, said: Sentence): Statement {
  const { key, args } = { key: said.key, args: keptArgs(said.args) }
  return { key, args: args as Statement['args'], text: sayAgain(texts, { key, args }) }
}

const keptArgs = (args: Args): Args =>
  Object.fromEntries(Object.entries(args).map(([name, arg]) => [name, kept(arg)]))

function kept(arg: Arg): Arg {
  if (typeof arg === 'string') return arg
  if (typeof arg === 'number') return toDigits(arg)
  if ('words' in arg) return { words: arg.words }
  if ('list' in arg) return { list: arg.list.map(kept), joined: arg.joined }
  if ('key' in arg) return { key: arg.key, args: keptArgs(arg.args) } as Sentence
  return { value: toDigits(arg.value), low: toDigits(arg.low), high: toDigits(arg.high), unit: arg.unit }
}
