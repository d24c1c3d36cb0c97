import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  type Document,
  type Node,
  type Pair,
  type YAMLMap,
} from 'yaml'
import type { Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'
import type { Place } from './place.ts'
import { syntaxProblems } from './yaml-syntax.ts'
import { cutTexts, keyName, notPlain, repeatedKeys, toPlain } from './yaml-plain.ts'

/** Path of a value: keys and 0-based indices from the top. */
export type KeyPath = readonly PropertyKey[]

/** A YAML file as plain data, with the place of every key and value. */
export interface YamlFile {
  /** Plain data; an empty value of a mapping is undefined. Undefined as a whole where the file cannot be read as YAML. */
  data: unknown
  /** Syntax errors, keys given twice. */
  problems: readonly Problem[]
  /** Where the key or list entry stands; of the nearest ancestor that exists, for a path that does not. */
  keyPlace: (path: KeyPath) => Place
  /** Where the value stands; its key's place where it is empty. */
  valuePlace: (path: KeyPath) => Place
  /** The value as written, cut to a line. */
  written: (path: KeyPath) => string
}

/**
 * Reads YAML 1.2. Nothing is executed; tags other than the core's are errors.
 *
 * @param file  name for the problems' places
 * @param text  contents, without byte-order mark
 */
export function readYaml(file: string, text: string): YamlFile {
  // One character for another, so that places stay true: a lone CR ends a line for an editor, not for YAML.
  const source = text.replace(/\r(?!\n)/g, '\n')
  const lines = new LineCounter()
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset)
    return { file, line, column: col }
  }
  // Own check for repeated keys: the library compares every pair of keys. Level `error`: `silent` would hide a second document.
  const doc = parseDocument(source, {
    lineCounter: lines,
    prettyErrors: false,
    logLevel: 'error',
    uniqueKeys: false,
  })
  const broken = syntaxProblems([...doc.errors, ...doc.warnings], { at, source })
  const repeated =
    broken.length > 0 ? [] : [...repeatedKeys(doc, at), ...cutTexts(doc, at), ...notPlain(doc, at)]
  const plain = broken.length > 0 ? { data: undefined, problems: broken } : toPlain(doc, at)
  const tree: Tree = { doc, pairs: pairFinder() }
  const place = (path: KeyPath, part: 'key' | 'value') => at(offsetOf(tree, path, part))
  return {
    data: plain.data,
    problems: [...plain.problems, ...repeated],
    keyPlace: (path) => place(path, 'key'),
    valuePlace: (path) => place(path, 'value'),
    written: (path) => writtenAt(tree, path, source),
  }
}

/** Character offset of a path's key (or list entry) or value; of the last part that exists. */
function offsetOf(tree: Tree, path: KeyPath, part: 'key' | 'value'): number {
  let offset = tree.doc.contents?.range?.[0] ?? 0
  for (const step of stepsOf(tree, path)) {
    const [keyAt, valueAt] = [step.key?.range?.[0], step.value?.range?.[0]]
    const empty = isScalar(step.value) && step.value.source === ''
    offset = (part === 'value' && !empty ? valueAt : keyAt) ?? keyAt ?? valueAt ?? offset
  }
  return offset
}

/** A document with its mappings' pairs at hand. */
interface Tree {
  doc: Document.Parsed
  pairs: (map: YAMLMap) => ReadonlyMap<string, Step>
}

interface Step {
  key: Node | undefined
  value: Node | undefined
}

/** Nodes along a path, as far as they exist; aliases are followed. */
function stepsOf({ doc, pairs }: Tree, path: KeyPath): Step[] {
  const steps: Step[] = []
  let node: unknown = doc.contents
  for (const name of path) {
    const here: unknown = isAlias(node) ? node.resolve(doc) : node
    const step = isMap(here)
      ? pairs(here).get(String(name))
      : isSeq(here)
        ? stepInList(here.items[Number(name)])
        : undefined
    if (!step) break
    steps.push(step)
    node = step.value
  }
  return steps
}

/** Finds the pairs of a mapping by name, each mapping listed once: a file of thousands of wrong keys stays quick. */
function pairFinder(): (map: YAMLMap) => ReadonlyMap<string, Step> {
  const listed = new WeakMap<YAMLMap, ReadonlyMap<string, Step>>()
  return (map) => {
    const known = listed.get(map)
    if (known) return known
    const steps = new Map(
      (map.items as Pair<Node, Node>[]).map((p) => [
        keyName(p.key),
        { key: p.key, value: p.value ?? undefined },
      ]),
    )
    listed.set(map, steps)
    return steps
  }
}

const stepInList = (item: unknown): Step | undefined =>
  item ? { key: undefined, value: item as Node } : undefined

function writtenAt(tree: Tree, path: KeyPath, source: string): string {
  const steps = stepsOf(tree, path)
  const node =
    path.length === 0 ? tree.doc.contents : steps.length === path.length ? steps.at(-1)?.value : undefined
  const range = node?.range
  return range ? excerpt(source.slice(range[0], range[1])) : ''
}
