import type { YAMLError } from 'yaml'
import { problem, type Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'
import type { Place } from './place.ts'

/** The text of a YAML file, and the place of a character in it. */
interface Source {
  source: string
  at: (offset: number) => Place
}

/**
 * What the YAML parser found wrong, as a person can act on it. Slips of the pen that upset the lines after them are
 * looked for in the text itself, since the parser only sees what follows from them; where one shows, nothing else is said.
 */
export function syntaxProblems(errors: readonly YAMLError[], about: Source): Problem[] {
  if (errors.length === 0) return []
  const tabs = errors.filter((e) => e.code === 'TAB_AS_INDENT')
  const slips = tabs.length > 0 ? [] : slipsIn(about)
  if (slips.length > 0) return slips
  return onceALine(tabs.length > 0 ? tabs : errors, about)
}

/** The first error of each line; what follows an open bracket is read as part of it, and is not at fault. */
function onceALine(errors: readonly YAMLError[], about: Source): Problem[] {
  const problems: Problem[] = []
  const lines = new Set<number>()
  for (const error of errors) {
    const line = about.at(Math.min(error.pos[0], about.source.length)).line!
    if (lines.has(line)) continue
    lines.add(line)
    const found = ofError(error, about)
    problems.push(found)
    if ('why' in found.args && found.args.why === 'phrase.yaml-unclosed' && found.line !== line) break
  }
  return problems
}

/** Blanks that look like a blank and indent nothing. */
const ODD_BLANK = /^[ ]*[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]/
/** A key whose value follows its colon without a blank; not a time or an address. */
const NO_BLANK = /^\s*(?:- )?[a-z_]+:(?=[^\s/:])/

function slipsIn({ source, at }: Source): Problem[] {
  const problems: Problem[] = []
  let offset = 0
  for (const line of source.split('\n')) {
    const [odd, close] = [ODD_BLANK.exec(line), NO_BLANK.exec(line)]
    if (odd) problems.push(shown({ place: at(offset + odd[0].length - 1), line, why: 'phrase.yaml-blank' }))
    else if (close)
      problems.push(shown({ place: at(offset + close[0].length - 1), line, why: 'phrase.yaml-space' }))
    offset += line.length + 1
  }
  return problems
}

function ofError(error: YAMLError, { source, at }: Source): Problem {
  const offset = Math.min(error.pos[0], source.length)
  const opened =
    error.code === 'BAD_INDENT' && error.message.startsWith('Flow ')
      ? openedBefore(source, offset)
      : error.code === 'MISSING_CHAR'
        ? quoteOpened(source)
        : undefined
  const place = at(opened ?? offset)
  const line = lineAt(source, opened ?? offset)
  if (opened !== undefined) return shown({ place, line, why: 'phrase.yaml-unclosed' })
  return shown({
    place,
    line,
    why: runsOn(error, source)
      ? 'phrase.yaml-indent'
      : error.message.startsWith('Implicit map keys')
        ? 'phrase.yaml-no-colon'
        : (REASONS[error.code] ?? 'phrase.yaml-other'),
  })
}

/** Where the bracket or brace stands that is still open at a place, quotes left aside. */
function openedBefore(source: string, end: number): number | undefined {
  const open: number[] = []
  const plain = source
    .slice(0, end)
    .replace(/"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|(?<=\s)#[^\n]*/g, (part) => ' '.repeat(part.length))
  for (let i = 0; i < plain.length; i++) {
    if (plain[i] === '{' || plain[i] === '[') open.push(i)
    else if (plain[i] === '}' || plain[i] === ']') open.pop()
  }
  return open.at(-1)
}

/** Where the value begins whose quotation mark is not closed on its line: the parser sees only the end of the file. */
function quoteOpened(source: string): number | undefined {
  let offset = 0
  for (const line of source.split('\n')) {
    const plain = line.replace(/"(?:[^"\\]|\\.)*"|'[^']*'|(?:^|\s)#.*$/g, (part) => ' '.repeat(part.length))
    const mark = /(?:^|[:[{,\s-]\s*)(["'])/.exec(plain)
    if (mark) return offset + mark.index + mark[0].length - 1
    offset += line.length + 1
  }
  return undefined
}

/** A value that seems to run on because the key below it is indented deeper: the indentation is what is wrong. */
function runsOn({ code, pos }: YAMLError, source: string): boolean {
  if (code !== 'MULTILINE_IMPLICIT_KEY' && code !== 'BLOCK_AS_IMPLICIT_KEY') return false
  const here = lineAt(source, pos[0])
  const rest = source.slice(source.indexOf('\n', pos[0]) + 1)
  const below = /^( *)[\w-]+:(?:\s|$)/.exec(rest)
  return below !== null && below[1]!.length > here.search(/\S/)
}

const lineAt = (source: string, offset: number): string =>
  source.slice(source.lastIndexOf('\n', offset - 1) + 1).split('\n', 1)[0]!

/** Characters of a line shown before an error; a long line is shown from there on. */
const SHOWN_BEFORE = 20

function shown({ place, line, why }: { place: Place; line: string; why: string }): Problem {
  const from = Math.max(0, (place.column ?? 1) - 1 - SHOWN_BEFORE)
  return problem('yaml-syntax', place, { found: excerpt(line.slice(from)), why })
}

const REASONS: Partial<Record<YAMLError['code'], string>> = {
  BAD_INDENT: 'phrase.yaml-indent',
  TAB_AS_INDENT: 'phrase.yaml-tab',
  MISSING_CHAR: 'phrase.yaml-unclosed',
  BLOCK_AS_IMPLICIT_KEY: 'phrase.yaml-colon',
  MULTILINE_IMPLICIT_KEY: 'phrase.yaml-colon',
  BLOCK_IN_FLOW: 'phrase.yaml-colon',
  BAD_ALIAS: 'phrase.yaml-alias',
  BAD_SCALAR_START: 'phrase.yaml-quote',
  BAD_DQ_ESCAPE: 'phrase.yaml-quote',
  UNEXPECTED_TOKEN: 'phrase.yaml-unexpected',
  MULTIPLE_DOCS: 'phrase.yaml-documents',
  TAG_RESOLVE_FAILED: 'phrase.yaml-tag',
  RESOURCE_EXHAUSTION: 'phrase.yaml-deep',
}
