import { visible } from '../problems/control-characters.ts'
import type { ProblemCode } from '../problems/codes.ts'
import type { Problem } from '../problems/problem.ts'
import type { Arg, Texts } from './messages.ts'
import { PROBLEM_WORDS, REASONS } from './problem-words.ts'
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
    ([name, value]) => [name, argument(texts, code, value as Arg)] as const,
  )
  return sayAgain(texts, { key: PROBLEM_WORDS[code].says, args: Object.fromEntries(said) })
}

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
