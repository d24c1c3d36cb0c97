import type { Spec } from 'vega'
import type { TopLevelSpec } from 'vega-lite'

/**
 * Compiling a Vega-Lite spec takes longer than laying it out, and charts of one kind differ in little but their data,
 * sizes, domains and words. So a spec is parted into its kind and these values, the kind is compiled once with a mark
 * in place of each value, and the values are put where the marks came out.
 */

/** A spec with marks for values, and the values by their marks. */
export interface Parted {
  kind: TopLevelSpec
  values: readonly unknown[]
}

/** Numbers no chart has: the mark of the i-th value where a number stands. */
const FIRST_NUMBER = 7_340_033
const MOST_MARKS = 1000
/** Around the number of a value where words or a list stand: signs of Unicode's private area, which no text has. */
const [OPEN, CLOSE] = ['\ue000', '\ue001']
const LIST = '\ue002'

/** Members whose value a compiler carries over as it is. The rest (types, marks, offsets, formats) makes the kind. */
const CARRIED = {
  list: ['values', 'domain', 'value'],
  number: ['width', 'height', 'left', 'right', 'top', 'bottom', 'value'],
  words: ['title', 'description'],
}

export function part(spec: TopLevelSpec): Parted {
  const values: unknown[] = []
  const marks = new Map<string, number>()
  // Equal values of equal kind share a mark: a compiler compares the domains of layers that share a scale.
  const markOf = (value: unknown, form: string): number => {
    const key = `${form} ${JSON.stringify(value)}`
    const known = marks.get(key)
    if (known !== undefined) return known
    marks.set(key, values.length)
    return values.push(value) - 1
  }
  const walk = (node: unknown, name: string): unknown => {
    if (Array.isArray(node))
      return CARRIED.list.includes(name) ? listMark(node, markOf) : node.map((each) => walk(each, ''))
    if (typeof node === 'number' && node !== 0 && CARRIED.number.includes(name))
      return FIRST_NUMBER + markOf(node, 'number')
    if (typeof node === 'string' && CARRIED.words.includes(name) && node !== '')
      return `${OPEN}${markOf(node, 'words')}${CLOSE}`
    if (typeof node !== 'object' || node === null) return node
    return Object.fromEntries(
      Object.entries(node).map(([key, value]) => [key, key === 'config' ? value : walk(value, key)]),
    )
  }
  return { kind: walk(spec, '') as TopLevelSpec, values }
}

/** Two numbers stay two numbers and 0 stays 0, since a compiler looks at the ends of a domain; any other list becomes a list of one mark. */
function listMark(list: readonly unknown[], markOf: (value: unknown, form: string) => number): unknown[] {
  if (list.length === 2 && list.every((each) => typeof each === 'number'))
    return list.map((each) => (each === 0 ? 0 : FIRST_NUMBER + markOf(each, 'number')))
  return list.every((each) => typeof each === 'number')
    ? [FIRST_NUMBER + markOf(list, 'list')]
    : [`${LIST}${markOf(list, 'list')}${CLOSE}`]
}

/** A compiled kind, ready to be filled; undefined where a mark did not come out as it went in, and the kind is no template. */
export type Template = (values: readonly unknown[]) => Spec

export function templateOf(compiled: Spec, values: number): Template | undefined {
  const found = new Set<number>()
  const text = JSON.stringify(compiled, (_, node: unknown) => {
    for (const i of marksIn(node)) found.add(i)
    return node
  })
  // Marks inside longer words or numbers reckoned from marks would be missed: then there are more than stand alone.
  const strays = [
    ...text.matchAll(new RegExp(`[${OPEN}${LIST}]\\d+|${FIRST_NUMBER.toString().slice(0, 4)}\\d{3}`, 'g')),
  ].length
  const alone = [
    ...text.matchAll(
      new RegExp(
        `"[${OPEN}${LIST}]\\d+${CLOSE}"|(?<=[[:,])${FIRST_NUMBER.toString().slice(0, 4)}\\d{3}(?=[\\],}])`,
        'g',
      ),
    ),
  ].length
  if (strays !== alone || found.size !== values) return undefined
  return (given) => fill(compiled, given) as Spec
}

/** The marks a node is: a list's, a word's or a number's. */
function marksIn(node: unknown): number[] {
  if (typeof node === 'number' && node >= FIRST_NUMBER && node < FIRST_NUMBER + MOST_MARKS)
    return [node - FIRST_NUMBER]
  if (typeof node === 'string' && (node.startsWith(OPEN) || node.startsWith(LIST)) && node.endsWith(CLOSE))
    return [Number(node.slice(1, -1))]
  return []
}

function fill(node: unknown, given: readonly unknown[]): unknown {
  if (Array.isArray(node)) {
    const [mark] = node.length === 1 ? marksIn(node[0]) : []
    return mark !== undefined && Array.isArray(given[mark])
      ? given[mark]
      : node.map((each) => fill(each, given))
  }
  const [mark] = marksIn(node)
  if (mark !== undefined) return given[mark]
  if (typeof node !== 'object' || node === null) return node
  return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, fill(value, given)]))
}
