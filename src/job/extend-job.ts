import { isMap, isSeq, parseDocument, type YAMLSeq } from 'yaml'

/** Lists of job.yaml that files are added to. */
export type JobList = 'captures' | 'traces' | 'photos'

/**
 * The text of job.yaml with an entry more at the end of a list; everything else stays as it was written, remarks and
 * line ends included.
 *
 * @param entry  lines of the entry, the first beginning with `- `, the others two blanks further in
 * @returns      undefined where the list is written in a way that cannot be added to line by line
 */
export function withEntry(text: string, list: JobList, entry: readonly string[]): string | undefined {
  const doc = parseDocument(text, { logLevel: 'silent' })
  if (!isMap(doc.contents)) return undefined
  const end = text.includes('\r\n') ? '\r\n' : '\n'
  const found = doc.contents.get(list, true)
  if (found === undefined || (!isSeq(found) && text.slice(found.range?.[0], found.range?.[1]).trim() === ''))
    return found === undefined
      ? `${ended(text, end)}${[`${list}:`, ...entry.map((line) => `  ${line}`), ''].join(end)}`
      : undefined
  if (!isSeq(found) || found.flow === true || found.items.length === 0) return undefined
  const [first, last] = ends(found)
  if (first === undefined || last === undefined) return undefined
  const lineStart = text.lastIndexOf('\n', first - 1) + 1
  const indent = /^[ ]*/.exec(text.slice(lineStart))![0]
  const lineEnd = text.indexOf('\n', Math.max(last - 1, 0))
  const at = lineEnd < 0 ? text.length : lineEnd + 1
  return `${ended(text.slice(0, at), end)}${entry.map((line) => `${indent}${line}${end}`).join('')}${text.slice(at)}`
}

const ended = (text: string, end: string): string => (text === '' || text.endsWith('\n') ? text : text + end)

/** Where the first entry begins and the last one's text ends. */
function ends({ items }: YAMLSeq): [number | undefined, number | undefined] {
  const range = (item: unknown) => (item as { range?: [number, number, number] }).range
  return [range(items[0])?.[0], range(items.at(-1))?.[1]]
}
