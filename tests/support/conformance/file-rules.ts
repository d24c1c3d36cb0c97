import { Name, Text, type Value } from './values.ts'
import type { PdfFile } from './pdf-file.ts'

/** How the file is written (ISO 19005-3, 6.1), what it must not hold (6.2.8, 6.2.10, 6.4, 6.5), and its catalog. */
export function fileRules(pdf: PdfFile): string[] {
  return [...frame(pdf), ...table(pdf), ...sizes(pdf), ...forbidden(pdf), ...images(pdf), ...catalog(pdf)]
}

/** Bytes before and after the objects; comment lines of a seal stand behind the two lines of the header. */
function frame(pdf: PdfFile): string[] {
  const { text, trailer } = pdf
  const tail = text.slice(text.lastIndexOf('%%EOF') + 5)
  return [
    ...(/^%PDF-1\.[0-7]\n%[\x80-\xff]{4}[\x80-\xff]*\n/.test(text)
      ? []
      : ['6.1.2: header, and a comment of four bytes above 127 right behind it']),
    ...(/^[\r\n]?$|^\r\n$/.test(tail) ? [] : [`6.1.3: '${tail.slice(0, 20)}' behind the end-of-file mark`]),
    ...(text.match(/%%EOF/g)?.length === 1 ? [] : ['6.1.3: more than one end-of-file mark']),
    ...(isIdentity(pdf.list(trailer.get('ID'))) ? [] : ['6.1.3: no ID of two times 16 bytes']),
    ...(trailer.has('Encrypt') ? ['6.1.3: encrypted'] : []),
  ]
}

const isIdentity = (parts: readonly Value[]): boolean =>
  parts.length === 2 && parts.every((part) => part instanceof Text && part.bytes.length === 16)

/** Cross-reference table and the line ends around objects (6.1.4, 6.1.9). */
function table({ text }: PdfFile): string[] {
  const start = Number(/startxref\n(\d+)\n%%EOF/.exec(text)?.[1])
  const [head, count] = /^xref\n0 (\d+)\n/.exec(text.slice(start, start + 30)) ?? []
  if (head === undefined) return ['6.1.4: cross-reference table']
  const found: string[] = []
  for (let id = 0; id < Number(count); id++) {
    const line = text.slice(start + head.length + 20 * id, start + head.length + 20 * id + 20)
    if (!/^\d{10} \d{5} [nf](?: \n| \r|\r\n)$/.test(line)) found.push(`6.1.4: entry ${id}`)
    const at = Number(line.slice(0, 10))
    if (line[17] === 'n' && (!text.startsWith(`${id} 0 obj\n`, at) || text[at - 1] !== '\n'))
      found.push(`6.1.9: object ${id}`)
  }
  const ends = text.match(/endobj/g)!.length
  return [
    ...found,
    ...(text.match(/\nendobj\n/g)?.length === ends ? [] : ['6.1.9: endobj without a line of its own']),
  ]
}

/** Most of everything (6.1.13). */
function sizes(pdf: PdfFile): string[] {
  const of = (value: Value): string[] => {
    if (value instanceof Text) return value.bytes.length > 32767 ? ['6.1.13: string too long'] : []
    if (value instanceof Name)
      return Buffer.byteLength(value.name, 'latin1') > 127 ? ['6.1.13: name too long'] : []
    if (typeof value === 'number') return Math.abs(value) > 2 ** 31 - 1 ? [`6.1.13: number ${value}`] : []
    if (value instanceof Map)
      return [...value].flatMap(([key, entry]) => [...of(new Name(key)), ...of(entry)])
    return Array.isArray(value) ? (value as readonly Value[]).flatMap(of) : []
  }
  const pages = pdf.pages.flatMap(({ dict }) => {
    const [x0, y0, x1, y1] = pdf.list(dict.get('MediaBox')) as number[]
    return [x1! - x0!, y1! - y0!].every((side) => side >= 3 && side <= 14400) ? [] : ['6.1.13: page size']
  })
  return [
    ...[...pdf.objects.values()].flatMap(of),
    ...pages,
    ...(pdf.objects.size > 8388607 ? ['6.1.13: objects'] : []),
  ]
}

const FILTERS = new Set(['FlateDecode', 'DCTDecode'])
const ACTIONS = new Set([
  'JavaScript',
  'Launch',
  'Sound',
  'Movie',
  'ResetForm',
  'ImportData',
  'Hide',
  'SetOCGState',
  'Rendition',
  'Trans',
  'GoTo3DView',
])

function forbidden(pdf: PdfFile): string[] {
  return pdf.dicts.flatMap((dict) => {
    const filters = pdf
      .list(pdf.name(dict.get('Type')) === 'Sig' ? undefined : dict.get('Filter'))
      .map(pdf.name)
      .filter((name) => !FILTERS.has(name ?? ''))
    const blend = pdf.name(dict.get('BM'))
    return [
      ...filters.map((name) => `6.1.7.2: filter ${name}`),
      ...['FFilter', 'FDecodeParms', 'AA', 'Alternates', 'OPI', 'XFA', 'TR', 'HTP']
        .filter((key) => dict.has(key))
        .map((key) => `${key} is not allowed`),
      ...(dict.has('Length') && dict.has('F') ? ['6.1.7.1: a stream outside the file'] : []),
      ...(blend === undefined || blend === 'Normal' ? [] : [`6.2.10: blend mode ${blend}`]),
      ...['ca', 'CA'].flatMap((key) => {
        const v = pdf.get(dict.get(key))
        return v === undefined || (typeof v === 'number' && v >= 0 && v <= 1) ? [] : [`6.2.10: ${key}`]
      }),
      ...(ACTIONS.has(pdf.name(dict.get('S')) ?? '') ? [`6.5: action ${pdf.name(dict.get('S'))}`] : []),
    ]
  })
}

const SPACES = new Set(['DeviceRGB', 'DeviceGray', 'Indexed'])

/** Pictures: colours that the output intent covers, no interpolation, whole bytes of pixels where they are not packed (6.2.8). */
function images(pdf: PdfFile): string[] {
  return pdf.dicts
    .filter((dict) => pdf.name(dict.get('Subtype')) === 'Image')
    .flatMap((dict) => {
      const [space, base] = pdf.list(dict.get('ColorSpace')).map(pdf.name)
      return [
        ...(SPACES.has(space ?? '') && (space !== 'Indexed' || SPACES.has(base ?? ''))
          ? []
          : [`6.2.4.3: colours ${space} ${base}`]),
        ...(pdf.get(dict.get('Interpolate')) === true ? ['6.2.8: interpolated'] : []),
        ...([1, 2, 4, 8, 16].includes(Number(dict.get('BitsPerComponent'))) ? [] : ['6.2.8: bits']),
      ]
    })
}

function catalog(pdf: PdfFile): string[] {
  const { catalog: root } = pdf
  const marked = pdf.dict(root.get('MarkInfo'))
  const intents = pdf.list(root.get('OutputIntents')).map(pdf.dict)
  const profile = Buffer.from(pdf.stream(intents[0]?.get('DestOutputProfile')))
  return [
    ...(pdf.get(marked.get('Marked')) === true && pdf.get(marked.get('Suspects')) !== true
      ? []
      : ['6.7.2, UA 7.1: not marked']),
    ...(/^[a-z]{2}(-[A-Z]{2})?$/.test(pdf.words(root.get('Lang')) ?? '') ? [] : ['6.7.4, UA 7.2: language']),
    ...(pdf.get(pdf.dict(root.get('ViewerPreferences')).get('DisplayDocTitle')) === true
      ? []
      : ['UA 7.1: title not shown']),
    ...(intents.length === 1 && pdf.name(intents[0]!.get('S')) === 'GTS_PDFA1'
      ? []
      : ['6.2.3: output intent']),
    ...(profile.subarray(36, 40).toString() === 'acsp' && profile.subarray(16, 20).toString() === 'RGB '
      ? []
      : ['6.2.3: colour profile']),
    ...['OpenAction', 'OCProperties', 'Requirements', 'Perms']
      .filter((key) => root.has(key))
      .map((key) => `catalog: ${key}`),
    ...(pdf.list(root.get('Outlines')).length > 0 ? [] : ['no bookmarks']),
  ]
}
