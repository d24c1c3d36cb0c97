import { unzlibSync } from 'fflate'

/** One object of a PDF written without object streams: its dictionary as text, its stream unpacked. */
export interface RawObject {
  id: number
  dict: string
  data?: Uint8Array
}

const latin1 = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1')

/** Reads a PDF by its own cross-reference table, so that it is also shown to be right. */
export function readRaw(bytes: Uint8Array): {
  header: string
  trailer: string
  end: string
  objects: ReadonlyMap<number, RawObject>
} {
  const text = latin1(bytes)
  const xref = Number(text.match(/startxref\n(\d+)\n%%EOF/)![1])
  const [, count] = text
    .slice(xref)
    .match(/^xref\n0 (\d+)\n/)!
    .map(Number)
  const entries = text
    .slice(xref)
    .split('\n')
    .slice(2, 2 + count!)
  const objects = new Map(
    entries.flatMap((entry, id) =>
      entry.trim().endsWith('n')
        ? [[id, readObject(bytes, text, { id, at: Number(entry.slice(0, 10)) })] as const]
        : [],
    ),
  )
  return {
    header: text.slice(0, 16),
    trailer: text.slice(text.lastIndexOf('trailer')),
    end: text.slice(-8),
    objects,
  }
}

function readObject(bytes: Uint8Array, text: string, { id, at }: { id: number; at: number }): RawObject {
  const head = `${id} 0 obj\n`
  if (!text.startsWith(head, at)) throw new Error(`object ${id} is not where the cross-reference table says`)
  const end = text.indexOf('endobj', at)
  const stream = text.indexOf('\nstream\n', at)
  if (stream < 0 || stream > end) return { id, dict: text.slice(at + head.length, end) }
  const dict = text.slice(at + head.length, stream)
  const length = Number(dict.match(/\/Length (\d+)/)![1])
  const from = stream + '\nstream\n'.length
  if (
    text
      .slice(from + length, from + length + 10)
      .trimStart()
      .slice(0, 9) !== 'endstream'
  )
    throw new Error(`object ${id}: stream length is wrong`)
  const packed = bytes.subarray(from, from + length)
  return { id, dict, data: /\/Filter \/FlateDecode/.test(dict) ? unzlibSync(packed) : packed }
}

/** What a page's content does, gone through operator by operator. */
export interface ContentFacts {
  /** Painting operators that stand outside every tag and artifact. */
  unmarked: string[]
  /** Deepest nesting of marked content and of q. */
  deepestMark: number
  deepestSave: number
  /** Left open at the end. */
  openMarks: number
  openSaves: number
  /** Glyph codes shown. */
  codes: Set<string>
}

const PAINTS = new Set(['f', 'f*', 'S', 's', 'B', 'B*', 'b', 'b*', 'Tj', 'TJ', 'Do', 'sh'])

export function contentFacts(content: Uint8Array): ContentFacts {
  const facts: ContentFacts = {
    unmarked: [],
    deepestMark: 0,
    deepestSave: 0,
    openMarks: 0,
    openSaves: 0,
    codes: new Set(),
  }
  for (const [token] of latin1(content).matchAll(/\((?:\\.|[^\\)])*\)|<<|>>|<[0-9a-f\s]*>|[^\s()<>[\]]+/gi)) {
    if (/^<[0-9a-f]/i.test(token))
      for (const code of token.slice(1, -1).match(/.{4}/g) ?? []) facts.codes.add(code)
    if (token === 'BMC' || token === 'BDC') facts.deepestMark = Math.max(facts.deepestMark, ++facts.openMarks)
    if (token === 'EMC') facts.openMarks--
    if (token === 'q') facts.deepestSave = Math.max(facts.deepestSave, ++facts.openSaves)
    if (token === 'Q') facts.openSaves--
    if (PAINTS.has(token) && facts.openMarks === 0) facts.unmarked.push(token)
  }
  return facts
}
