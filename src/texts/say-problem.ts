import { visible } from '../problems/control-characters.ts'
import type { Problem } from '../problems/problem.ts'
import type { Arg, Args, Texts } from './messages.ts'
import { sayLoose } from './say.ts'

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
  return sayLoose(texts, `problem.${code}`, Object.fromEntries(said) as Args)
}

/**
 * An argument as it is said. A text may be a key `phrase.…`, or a code with a phrase under its problem
 * (`phrase.<problem>.<code>`); an empty one is said as `phrase.none`; any other stands as found, made visible.
 */
function argument(texts: Texts, code: string, value: Arg): Arg {
  if (typeof value !== 'string') return value
  const key = value === '' ? 'phrase.none' : value.startsWith('phrase.') ? value : `phrase.${code}.${value}`
  return Object.hasOwn(texts.templates, key) ? sayLoose(texts, key) : visible(value)
}
