import { visible } from '../problems/control-characters.ts'
import type { ProblemCode } from '../problems/codes.ts'
import type { Problem } from '../problems/problem.ts'
import type { Arg, Texts } from './messages.ts'
import { withPlainSigns } from './plain-signs.ts'
import { PROBLEM_WORDS, REASONS, type CodeWords } from './problem-words.ts'
import { say, sayAgain } from './say.ts'

/** `file:line:column: sentence`, without the places a problem does not have. */
export function sayProblem(texts: Texts, problem: Problem): string {
  const { file, line, column } = problem
  const place = [visible(file), line, line === undefined ? undefined : column]
    .filter((part) => part !== undefined)
    .join(':')
  return `${place}: ${problemSentence(texts, problem)}`
}

/** The sentence of a problem alone: what was found, what was expected, what to do. */
export function problemSentence(texts: Texts, { code, args }: Problem): string {
  const said = Object.entries(args).map(
    ([name, value]) => [name, argument(texts, code, own(texts, name, value as Arg))] as const,
  )
  const { says, alone }: CodeWords = PROBLEM_WORDS[code]
  const key = alone !== undefined && 'nearest' in args && args.nearest === '' ? alone : says
  return sayAgain(texts, { key, args: Object.fromEntries(said) })
}

/** Ranges and lists that are ours, and not names of the job. */
const OURS: readonly string[] = ['usual', 'expected', 'known', 'most']
const own = ({ plain }: Texts, name: string, value: Arg): Arg =>
  plain && typeof value === 'string' && OURS.includes(name) ? withPlainSigns(value) : value

/**
 * An argument as it is said. A text may be a key `phrase.…`, or a code with a phrase under its problem
 * (`phrase.<problem>.<code>`); an empty one is said as `phrase.none`; any other stands as found, made visible.
 */
function argument(texts: Texts, code: ProblemCode, value: Arg): Arg {
  if (typeof value !== 'string') return value
  if (value === '') return say(texts, 'phrase.none')
  if (Object.hasOwn(texts.templates, value) && value.startsWith('phrase.'))
    return sayAgain(texts, { key: value, args: {} })
  const reasons = REASONS[code]
  return reasons === undefined
    ? visible(value)
    : Object.hasOwn(reasons, value)
      ? say(texts, reasons[value]!)
      : visible(value)
}
