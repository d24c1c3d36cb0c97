import { createHash } from 'node:crypto'
import type PDFDocument from 'pdfkit'
import { pdfText } from './pdf-text.ts'

/** A file that travels inside the report. */
export interface Attachment {
  /** Unique within the report. */
  name: string
  data: Uint8Array
  /** MIME type, such as text/csv. */
  mime: string
  /** Raw captures are `Source`, tables and result.json `Data`, everything else `Supplement` (ISO 32000-2, 7.11.3). */
  relationship: 'Source' | 'Data' | 'Supplement'
  /** Given to renderReport as the key of a text, written into the file as its sentence. */
  description: string
}

/** In the order of their names' letters, whatever order they came in and whatever the machine's locale. */
export const byName = (attachments: readonly Attachment[]): readonly Attachment[] =>
  attachments.toSorted((a, b) => (a.name < b.name ? -1 : 1))

/**
 * Embeds files as associated files of the document (ISO 19005-3, 6.8), sorted by name.
 * Written out here: pdfkit's own lacks UF in EF, writes the checksum as 32 letters where 16 bytes are asked for,
 * and sorts names by the machine's locale.
 *
 * @param when  date given to every file: the job's, never the clock
 * @throws Error for two files of one name: one of them would be hidden
 */
export function attach(doc: PDFDocument, attachments: readonly Attachment[], when: Date): void {
  if (attachments.length === 0) return
  const sorted = byName(attachments)
  const twice = sorted.find((file, i) => i > 0 && sorted[i - 1]!.name === file.name)
  if (twice) throw new Error(`two attachments are named ${twice.name}`)
  const specs = sorted.map((file) => ({ file, spec: fileSpec(doc, file, when) }))
  const names = doc._root.data.Names as { data: Record<string, unknown> }
  const tree = specs.toSorted((a, b) => Buffer.compare(written(a.file.name), written(b.file.name)))
  names.data.EmbeddedFiles = { Names: tree.flatMap(({ file, spec }) => [pdfText(file.name), spec]) }
  doc._root.data.AF = specs.map(({ spec }) => spec)
}

function fileSpec(doc: PDFDocument, file: Attachment, when: Date) {
  const stream = doc.ref({
    Type: 'EmbeddedFile',
    Subtype: file.mime.replace(/[^\w.+-]/g, (sign) => `#${sign.charCodeAt(0).toString(16).padStart(2, '0')}`),
    Params: {
      CreationDate: when,
      ModDate: when,
      Size: file.data.byteLength,
      CheckSum: createHash('md5').update(file.data).digest(),
    },
  })
  stream.end(file.data)
  const spec = doc.ref({
    Type: 'Filespec',
    AFRelationship: file.relationship,
    F: pdfText(file.name),
    UF: pdfText(file.name),
    EF: { F: stream, UF: stream },
    Desc: pdfText(file.description),
  })
  spec.end()
  return spec
}

/** The bytes a name is written as; a name tree is searched in their order, not in that of the letters (ISO 32000-1, 7.9.6). */
const written = (name: string): Buffer =>
  /^[\0-\x7f]*$/.test(name)
    ? Buffer.from(name, 'latin1')
    : Buffer.concat([Buffer.from([0xfe, 0xff]), Buffer.from(name, 'utf16le').swap16()])
