import { readRaw } from '../pdf-raw.ts'
import { Name, Reader, Ref, Text, type Dict, type Value } from './values.ts'

/** One page, its content unpacked. */
export interface Page {
  dict: Dict
  content: string
}

/** A report's file taken apart by its own cross-reference table. */
export class PdfFile {
  readonly bytes: Uint8Array
  readonly text: string
  readonly objects: ReadonlyMap<number, Value>
  readonly streams: ReadonlyMap<number, Uint8Array>
  readonly trailer: Dict

  constructor(bytes: Uint8Array) {
    const raw = readRaw(bytes)
    this.bytes = bytes
    this.text = Buffer.from(bytes).toString('latin1')
    this.objects = new Map([...raw.objects].map(([id, { dict }]) => [id, new Reader(dict).value()]))
    this.streams = new Map(
      [...raw.objects].flatMap(([id, { data }]) => (data === undefined ? [] : [[id, data]])),
    )
    this.trailer = new Reader(raw.trailer, 'trailer'.length).value() as Dict
  }

  /** What a value stands for, references followed. */
  get = (value: Value | undefined): Value | undefined =>
    value instanceof Ref ? this.objects.get(value.id) : value
  dict = (value: Value | undefined): Dict => {
    const found = this.get(value)
    return found instanceof Map ? found : new Map()
  }
  list = (value: Value | undefined): readonly Value[] => {
    const found = this.get(value)
    return Array.isArray(found) ? (found as readonly Value[]) : found === undefined ? [] : [found]
  }
  name = (value: Value | undefined): string | undefined => {
    const found = this.get(value)
    return found instanceof Name ? found.name : undefined
  }
  words = (value: Value | undefined): string | undefined => {
    const found = this.get(value)
    if (!(found instanceof Text)) return undefined
    const { bytes } = found
    return bytes[0] === 0xfe && bytes[1] === 0xff
      ? Buffer.from(bytes.subarray(2)).swap16().toString('utf16le')
      : bytes.toString('latin1')
  }
  stream = (value: Value | undefined): Uint8Array =>
    (value instanceof Ref ? this.streams.get(value.id) : undefined) ?? new Uint8Array()

  get catalog(): Dict {
    return this.dict(this.trailer.get('Root'))
  }
  get info(): Dict {
    return this.dict(this.trailer.get('Info'))
  }

  /** Pages in order; the tree of pages is flat or not. */
  get pages(): Page[] {
    const below = (node: Dict): Dict[] =>
      this.name(node.get('Type')) === 'Page'
        ? [node]
        : this.list(node.get('Kids')).flatMap((kid) => below(this.dict(kid)))
    return below(this.dict(this.catalog.get('Pages'))).map((dict) => ({
      dict,
      content: (Array.isArray(this.get(dict.get('Contents')))
        ? this.list(dict.get('Contents'))
        : [dict.get('Contents')!]
      )
        .map((part) => Buffer.from(this.stream(part)).toString('latin1'))
        .join('\n'),
    }))
  }

  /** Every dictionary of the file, those inside others too. */
  get dicts(): Dict[] {
    const inside = (value: Value): Dict[] =>
      value instanceof Map
        ? [value, ...[...value.values()].flatMap(inside)]
        : Array.isArray(value)
          ? (value as readonly Value[]).flatMap(inside)
          : []
    return [...this.objects.values()].flatMap(inside)
  }
}
