import { closeSync, openSync, readSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { StringDecoder } from 'node:string_decoder'

/** Most text held before it is sorted and put aside, characters. Two or three times that is what a sort takes of memory. */
const RUN_CHARACTERS = 2 * 2 ** 20
const READ_BYTES = 64 * 2 ** 10
/** Runs merged at a time: each is an open file. */
const MOST_RUNS = 200

/** Sorts any number of values in little memory. Values of one key come out in the order of their JSON texts, so the order they were added in makes no difference. */
export interface RowSorter<T> {
  add(key: string, value: T): void
  /** All values by their keys; called once. */
  sorted(): Generator<T>
}

interface Line {
  key: string
  text: string
}
const before = (a: Line, b: Line): number =>
  a.key < b.key ? -1 : a.key > b.key ? 1 : a.text < b.text ? -1 : 1

/**
 * @param folder  where runs are put aside; removed with it by the caller
 * @param name    of this sorter among others in the folder
 */
export function rowSorter<T>(folder: string, name: string): RowSorter<T> {
  let held: Line[] = []
  let characters = 0
  let made = 0
  let runs: string[] = []
  const putAside = (lines: Iterable<Line>): string => {
    const path = join(folder, `${name}-${made++}`)
    const file = openSync(path, 'w')
    let text = ''
    for (const line of lines) {
      text += `${JSON.stringify(line.key)}\t${line.text}\n`
      if (text.length > READ_BYTES) {
        writeFileSync(file, text)
        text = ''
      }
    }
    writeFileSync(file, text)
    closeSync(file)
    return path
  }
  const flush = () => {
    runs.push(putAside(held.sort(before)))
    held = []
    characters = 0
  }
  return {
    add(key, value) {
      const text = JSON.stringify(value)
      held.push({ key, text })
      characters += text.length + key.length
      if (characters > RUN_CHARACTERS) flush()
    },
    *sorted() {
      if (runs.length > 0) flush()
      while (runs.length > MOST_RUNS)
        runs = [...runs.slice(MOST_RUNS), putAside(merge(runs.slice(0, MOST_RUNS).map(linesOf)))]
      const lines = runs.length === 0 ? held.sort(before) : merge(runs.map(linesOf))
      for (const { text } of lines) yield JSON.parse(text) as T
    },
  }
}

function* merge(sources: readonly Generator<Line>[]): Generator<Line> {
  const heads = sources.flatMap((source) => {
    const { value } = source.next()
    return value === undefined ? [] : [{ line: value as Line, source }]
  })
  // Few sources: a sorted list with insertion is as quick as a heap.
  heads.sort((a, b) => before(a.line, b.line))
  while (heads.length > 0) {
    const head = heads.shift()!
    yield head.line
    const { value } = head.source.next()
    if (value === undefined) continue
    head.line = value as Line
    const at = heads.findIndex((other) => before(head.line, other.line) < 0)
    heads.splice(at < 0 ? heads.length : at, 0, head)
  }
}

/** Lines of a run; the file goes with its last line. */
function* linesOf(path: string): Generator<Line> {
  const file = openSync(path, 'r')
  const decoder = new StringDecoder('utf8')
  const buffer = Buffer.alloc(READ_BYTES)
  let rest = ''
  try {
    for (let read = readSync(file, buffer); read > 0; read = readSync(file, buffer)) {
      const lines = (rest + decoder.write(buffer.subarray(0, read))).split('\n')
      rest = lines.pop()!
      for (const line of lines) {
        const tab = line.indexOf('\t')
        yield { key: JSON.parse(line.slice(0, tab)) as string, text: line.slice(tab + 1) }
      }
    }
  } finally {
    closeSync(file)
    rmSync(path)
  }
}
