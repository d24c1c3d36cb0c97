import { createHash } from 'node:crypto'
import { SaxesParser, type SaxesTagNS } from 'saxes'
import type { PdfFile } from './pdf-file.ts'
import { Text } from './values.ts'

const DC = 'http://purl.org/dc/elements/1.1/'
const XMP = 'http://ns.adobe.com/xap/1.0/'
const PDF = 'http://ns.adobe.com/pdf/1.3/'
/** Properties that PDF/A-3 knows without being told of them (those used here), and those of the extension it is told of. */
const KNOWN: Readonly<Record<string, readonly string[]>> = {
  [DC]: ['format', 'title', 'description', 'creator', 'language'],
  [XMP]: ['CreateDate', 'ModifyDate', 'MetadataDate', 'CreatorTool'],
  [PDF]: ['Producer'],
  'http://ns.adobe.com/xap/1.0/mm/': ['DocumentID', 'InstanceID'],
  'http://www.aiim.org/pdfa/ns/id/': ['part', 'conformance'],
  'http://www.aiim.org/pdfua/ns/id/': ['part'],
  'http://www.aiim.org/pdfa/ns/extension/': ['schemas'],
}

/** The metadata's properties by namespace and name, as a strict parser reads them. @throws Error for XML that is not well formed */
function propertiesOf(xml: string): Map<string, string> {
  const properties = new Map<string, string>()
  const open: SaxesTagNS[] = []
  let property = ''
  const parser = new SaxesParser({ xmlns: true })
  parser.on('error', (error) => {
    throw error
  })
  parser.on('opentag', (tag) => {
    if (open.at(-1)?.local === 'Description' && open.at(-2)?.local === 'RDF') {
      property = `${tag.uri} ${tag.local}`
      if (properties.has(property)) throw new Error(`${property} stands twice`)
      properties.set(property, '')
    }
    open.push(tag)
  })
  parser.on('text', (text) => {
    if (property !== '') properties.set(property, properties.get(property)! + text)
  })
  parser.on('closetag', () => {
    open.pop()
    if (open.at(-1)?.local === 'Description' && open.length === 3) property = ''
  })
  parser.write(xml).close()
  return properties
}

/** Metadata of the file (ISO 19005-3, 6.6; ISO 14289-1, 5): well formed, both standards, nothing unknown, as the Info dictionary has it. */
export function metadataRules(pdf: PdfFile): string[] {
  const reference = pdf.catalog.get('Metadata')
  const dict = pdf.dict(reference)
  const xml = Buffer.from(pdf.stream(reference)).toString('utf8')
  const properties = propertiesOf(xml)
  const value = (uri: string, name: string) => properties.get(`${uri} ${name}`)?.trim()
  const agree = (key: string, words: string | undefined) =>
    pdf.words(pdf.info.get(key)) === words ? [] : [`Info ${key} and metadata differ: ${words}`]
  const day = (key: string, name: string) =>
    (pdf.words(pdf.info.get(key)) ?? '').replaceAll(/\D/g, '').slice(0, 14) ===
    (value(XMP, name) ?? '-').replaceAll(/\D/g, '').slice(0, 14)
      ? []
      : [`dates ${key} differ`]
  return [
    ...(dict.has('Filter') || pdf.name(dict.get('Subtype')) !== 'XML'
      ? ['6.6.2.1: the metadata stream']
      : []),
    ...(/^<\?xpacket begin="\ufeff?" id="[^"]*"\?>[^]*<\?xpacket end="[wr]"\?>\s*$/.test(xml)
      ? []
      : ['6.6.2.1: the packet around the metadata']),
    ...[...properties.keys()]
      .filter((key) => !KNOWN[key.split(' ')[0]!]?.includes(key.split(' ')[1]!))
      .map((key) => `6.6.2.3: property ${key}`),
    ...(value('http://www.aiim.org/pdfa/ns/id/', 'part') === '3' &&
    value('http://www.aiim.org/pdfa/ns/id/', 'conformance') === 'A'
      ? []
      : ['6.6.4: not marked PDF/A-3a']),
    ...(value('http://www.aiim.org/pdfua/ns/id/', 'part') === '1' ? [] : ['UA 5: not marked PDF/UA-1']),
    ...(value('http://www.aiim.org/pdfa/ns/extension/', 'schemas')?.includes(
      'http://www.aiim.org/pdfua/ns/id/',
    )
      ? []
      : ['6.6.2.3: no extension schema']),
    ...(value(DC, 'title') ? [] : ['UA 7.1: no title']),
    ...agree('Title', value(DC, 'title')),
    ...agree('Author', value(DC, 'creator')),
    ...agree('Subject', value(DC, 'description')),
    ...agree('Creator', value(XMP, 'CreatorTool')),
    ...agree('Producer', value(PDF, 'Producer')),
    ...day('CreationDate', 'CreateDate'),
    ...day('ModDate', 'ModifyDate'),
  ]
}

/** Embedded files (ISO 19005-3, 6.8; ISO 14289-1, 7.11): whole, named twice, typed, dated, tied to the document, in the order of their names. */
export function attachmentRules(pdf: PdfFile): string[] {
  const names = pdf.list(pdf.dict(pdf.dict(pdf.catalog.get('Names')).get('EmbeddedFiles')).get('Names'))
  const keys = names.filter((_, i) => i % 2 === 0).map((key) => (key as Text).bytes)
  const associated = new Set(pdf.list(pdf.catalog.get('AF')).map((value) => pdf.dict(value)))
  const sorted = keys.every((key, i) => i === 0 || Buffer.compare(keys[i - 1]!, key) < 0)
  return [
    ...(sorted ? [] : ['7.9.6: names not in order, or one twice']),
    ...names
      .filter((_, i) => i % 2 === 1)
      .flatMap((reference) => {
        const spec = pdf.dict(reference)
        const file = pdf.dict(spec.get('EF')).get('F')
        const dict = pdf.dict(file)
        const params = pdf.dict(dict.get('Params'))
        const data = pdf.stream(file)
        const name = pdf.words(spec.get('UF'))
        return [
          ...(associated.has(spec) ? [] : [`6.8: ${name} is not associated`]),
          ...(spec.has('F') && spec.has('UF') && spec.has('Desc') ? [] : [`6.8: names of ${name}`]),
          ...(['Source', 'Data', 'Alternative', 'Supplement', 'Unspecified'].includes(
            pdf.name(spec.get('AFRelationship')) ?? '',
          )
            ? []
            : [`6.8: relationship of ${name}`]),
          ...(pdf.name(dict.get('Type')) === 'EmbeddedFile' &&
          /^[\w.+-]+\/[\w.+-]+$/.test(pdf.name(dict.get('Subtype')) ?? '')
            ? []
            : [`6.8: type of ${name}`]),
          ...(params.get('Size') === data.length &&
          (params.get('CheckSum') as Text).bytes.equals(createHash('md5').update(data).digest())
            ? []
            : [`size or digest of ${name}`]),
          ...['CreationDate', 'ModDate']
            .filter((key) => !/^D:\d{14}Z/.test(pdf.words(params.get(key)) ?? ''))
            .map((key) => `${key} of ${name}`),
        ]
      }),
  ]
}
