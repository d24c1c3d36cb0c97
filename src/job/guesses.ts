import { problem, type Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'

/** Warns of each guess in job.yaml that nobody has confirmed. */
export function guessesLeft(file: string, text: string): Problem[] {
  return text.split(/\r\n?|\n/).flatMap((line, i) => {
    const at = line.search(/(?<=^|\s)# guess:/)
    if (at < 0 || line.trimStart().startsWith('#')) return []
    return [
      problem(
        'guess-left',
        { file, line: i + 1, column: at + 1, severity: 'warn' },
        { found: excerpt(line.slice(0, at)) },
      ),
    ]
  })
}
