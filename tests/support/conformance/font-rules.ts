import type { PdfFile } from './pdf-file.ts'
import type { Dict, Value } from './values.ts'

/** One font of the file: width (1/1000 em) and meaning of each glyph, as the file states them and as the program has them. */
export interface FontFacts {
  name: string
  stated: ReadonlyMap<number, number>
  unicode: ReadonlyMap<number, string>
  own: readonly number[]
}

/** Fonts by their dictionary; what is wrong with one by itself goes into `found` (ISO 19005-3, 6.2.11). */
export function fontsOf(pdf: PdfFile, found: string[]): ReadonlyMap<Dict, FontFacts> {
  const fonts = pdf.dicts.filter(
    (dict) => pdf.name(dict.get('Type')) === 'Font' && pdf.name(dict.get('Subtype')) === 'Type0',
  )
  const simple = pdf.dicts.filter(
    (dict) =>
      pdf.name(dict.get('Type')) === 'Font' &&
      !['Type0', 'CIDFontType2'].includes(pdf.name(dict.get('Subtype')) ?? ''),
  )
  found.push(...simple.map(() => '6.2.11: a font that is not embedded whole'))
  return new Map(
    fonts.map((font) => {
      const descendant = pdf.dict(pdf.list(font.get('DescendantFonts'))[0])
      const descriptor = pdf.dict(descendant.get('FontDescriptor'))
      const name = pdf.name(font.get('BaseFont')) ?? ''
      const program = pdf.stream(descriptor.get('FontFile2'))
      if (program.length === 0) found.push(`6.2.11.4.1: ${name} is not embedded`)
      if (!descendant.has('CIDToGIDMap')) found.push(`6.2.11.3.2: ${name} lacks CIDToGIDMap`)
      if (!/^[A-Z]{6}\+/.test(name) || pdf.name(descriptor.get('FontName')) !== name)
        found.push(`6.2.11.2: names of ${name}`)
      return [
        font,
        {
          name,
          stated: widthsOf(pdf, descendant.get('W')),
          unicode: unicodeOf(Buffer.from(pdf.stream(font.get('ToUnicode'))).toString('latin1'), found),
          own: advancesOf(program),
        },
      ]
    }),
  )
}

function widthsOf(pdf: PdfFile, array: Value | undefined): Map<number, number> {
  const values = pdf.list(array)
  const widths = new Map<number, number>()
  for (let i = 0; i < values.length;) {
    const first = values[i] as number
    const next = pdf.get(values[i + 1])
    if (Array.isArray(next)) {
      ;(next as number[]).forEach((width, k) => widths.set(first + k, width))
      i += 2
      continue
    }
    for (let cid = first; cid <= (next as number); cid++) widths.set(cid, values[i + 2] as number)
    i += 3
  }
  return widths
}

/** Glyph to Unicode (UTF-16 in hexadecimal), ranges and single ones. */
function unicodeOf(cmap: string, found: string[]): Map<number, string> {
  const map = new Map<number, string>()
  for (const [, block] of cmap.matchAll(/beginbfrange([^]*?)endbfrange/g)) {
    for (const [, from, to, target] of block!.matchAll(
      /<([0-9a-f]+)>\s*<([0-9a-f]+)>\s*(\[[^\]]*\]|<[0-9a-f]+>)/gi,
    )) {
      const [low, high] = [parseInt(from!, 16), parseInt(to!, 16)]
      const listed = [...target!.matchAll(/<([0-9a-f ]*)>/gi)].map(([, hex]) =>
        hex!.replaceAll(' ', '').toLowerCase(),
      )
      if (target!.startsWith('[') && listed.length !== high - low + 1)
        found.push('6.2.11.7: a range of another length than its list')
      for (let cid = low; cid <= high; cid++)
        map.set(
          cid,
          target!.startsWith('[')
            ? (listed[cid - low] ?? '')
            : (parseInt(listed[0]!, 16) + cid - low).toString(16).padStart(4, '0'),
        )
    }
  }
  for (const [, block] of cmap.matchAll(/beginbfchar([^]*?)endbfchar/g)) {
    for (const [, cid, hex] of block!.matchAll(/<([0-9a-f]+)>\s*<([0-9a-f]*)>/gi))
      map.set(parseInt(cid!, 16), hex!.toLowerCase())
  }
  return map
}

/** Advance widths of a TrueType program, 1/1000 em. @source OpenType, tables head, hhea, hmtx */
function advancesOf(program: Uint8Array): number[] {
  const data = Buffer.from(program)
  if (data.length < 12) return []
  const tables = new Map(
    Array.from({ length: data.readUInt16BE(4) }, (_, i) => {
      const at = 12 + 16 * i
      return [data.toString('latin1', at, at + 4), data.readUInt32BE(at + 8)] as const
    }),
  )
  const unitsPerEm = data.readUInt16BE(tables.get('head')! + 18)
  const measured = data.readUInt16BE(tables.get('hhea')! + 34)
  const glyphs = data.readUInt16BE(tables.get('maxp')! + 4)
  return Array.from(
    { length: glyphs },
    (_, gid) =>
      (data.readUInt16BE(tables.get('hmtx')! + 4 * Math.min(gid, measured - 1)) * 1000) / unitsPerEm,
  )
}

/** What is wrong with one glyph shown. */
export function glyphRules({ name, stated, unicode, own }: FontFacts, cid: number): string[] {
  if (cid === 0) return [`6.2.11.8: ${name} shows .notdef`]
  if (cid >= own.length) return [`6.2.11.4.1: ${name} lacks glyph ${cid}`]
  const meaning = unicode.get(cid) ?? ''
  const first = parseInt(meaning.slice(0, 4), 16)
  return [
    ...(Math.abs((stated.get(cid) ?? 1000) - own[cid]!) <= 1
      ? []
      : [`6.2.11.5: width of glyph ${cid} of ${name}`]),
    ...(meaning === '' || ['0000', 'feff', 'fffe'].includes(meaning)
      ? [`6.2.11.7: ${name} glyph ${cid} stands for no letter`]
      : []),
    ...(first >= 0xe000 && first <= 0xf8ff ? [`6.2.11.7.3: ${name} glyph ${cid} is of private use`] : []),
  ]
}
