import { isScalar, visit, type Document, type Node, type Pair } from 'yaml'
import { problem, type Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'
import type { Place } from './place.ts'

/** Aliases are for a repeated channel or two; more than this is a bomb or a mistake. */
const MOST_ALIASES = 50

/** Name of a mapping's key as plain data has it. */
export const keyName = (key: unknown): string => (isScalar(key) ? String(key.value) : String(key))

/** Keys given twice in one mapping: the later would silently win. */
export function repeatedKeys(doc: Document.Parsed, at: (offset: number) => Place): Problem[] {
  const problems: Problem[] = []
  visit(doc, {
    Map(_, map) {
      const seen = new Set<string>()
      for (const { key } of map.items as Pair<Node>[]) {
        const name = keyName(key)
        if (seen.has(name))
          problems.push(
            problem('duplicate-entry', at(key.range![0]), { key: excerpt(name), found: excerpt(name) }),
          )
        seen.add(name)
      }
    },
  })
  return problems
}

/** Texts that end at a # that begins no remark: `cyl #3 bad` loses its end without a word. */
export function cutTexts(doc: Document.Parsed, at: (offset: number) => Place): Problem[] {
  const problems: Problem[] = []
  visit(doc, {
    Scalar(_, { type, comment, source, range }) {
      if (type !== 'PLAIN' || !comment || /^\s/.test(comment)) return
      problems.push(
        problem(
          'text-cut',
          { ...at(range![1]), severity: 'warn' },
          { found: excerpt(source ?? ''), lost: excerpt(`#${comment}`) },
        ),
      )
    },
  })
  return problems
}

/** Names that stand for something else in every program that reads this one's records. */
const RESERVED: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

/** What YAML reads as something other than it looks: a number in another base (`0x7ce` is 1998), a reserved name as a key. */
export function notPlain(doc: Document.Parsed, at: (offset: number) => Place): Problem[] {
  const problems: Problem[] = []
  visit(doc, {
    Scalar(key, { format, source, range, value }) {
      const found = excerpt(source ?? String(value))
      if (key === 'key' && RESERVED.has(String(value)))
        problems.push(problem('unknown-key', at(range![0]), { key: found, nearest: '' }))
      else if (format === 'HEX' || format === 'OCT')
        problems.push(problem('wrong-value', at(range![0]), { key: found, found, expected: 'phrase.number' }))
    },
  })
  return problems
}

/** Plain data of a document without errors; undefined where its aliases cannot be followed. */
export function toPlain(
  doc: Document.Parsed,
  at: (offset: number) => Place,
): { data: unknown; problems: Problem[] } {
  const bomb = aliasTrouble(doc)
  if (bomb !== undefined) {
    return {
      data: undefined,
      problems: [problem('yaml-syntax', at(bomb.offset), { found: bomb.found, why: 'phrase.yaml-alias' })],
    }
  }
  return { data: withoutEmpty(doc.toJS({ maxAliasCount: MOST_ALIASES })), problems: [] }
}

/** The first alias that is one too many, stands inside its own anchor, or points at nothing. */
function aliasTrouble(doc: Document.Parsed): { offset: number; found: string } | undefined {
  let count = 0
  let trouble: { offset: number; found: string } | undefined
  visit(doc, {
    Alias(_, alias, path) {
      const target = alias.resolve(doc)
      const nested = target !== undefined && !isScalar(target) && holdsAlias(target)
      if (++count <= MOST_ALIASES && target !== undefined && !path.includes(target) && !nested)
        return undefined
      trouble = { offset: alias.range![0], found: excerpt(`*${alias.source}`) }
      return visit.BREAK
    },
  })
  return trouble
}

/** An anchor that holds aliases itself is how a small file unfolds into a huge one; a job has no use for it. */
function holdsAlias(node: Node): boolean {
  let found = false
  visit(node, {
    Alias: () => {
      found = true
      return visit.BREAK
    },
  })
  return found
}

/** Copies plain data with the empty values of mappings as undefined: `cause:` left empty is `cause` left out. */
function withoutEmpty(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutEmpty)
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype)
    return value
  return Object.fromEntries(
    Object.entries(value).map(([k, v]) => [k, v === null ? undefined : withoutEmpty(v)]),
  )
}
