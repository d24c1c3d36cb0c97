import type PDFDocument from 'pdfkit'
import { BLANK_SEAL } from '../../seal/seal-pdf.ts'
import type { Typeface } from '../text/typeface.ts'
import type { Paper } from '../theme.ts'
import { compressAlike } from './compress.ts'
import { factsXmp, PDFUA_XMP, type DocumentFacts } from './xmp.ts'

/**
 * An empty document that is PDF/A-3a and PDF/UA-1 at once: tagged, titled, its language known, every font embedded,
 * its IDs cut from the inputs' hashes, so that equal inputs give equal bytes.
 * Two comment lines behind the header are left blank for its seal (see seal-pdf.ts).
 * Nothing may be drawn outside a tag or an artifact (see pen.ts).
 */
export async function openDocument(
  facts: DocumentFacts,
  how: { paper: Paper; typeface: Typeface },
): Promise<PDFDocument> {
  const { default: Document } = await import('pdfkit')
  const when = new Date(facts.when)
  const { regular, semibold, italic } = how.typeface.fonts
  const doc = new Document({
    autoFirstPage: false,
    bufferPages: true,
    size: how.paper,
    margin: 0,
    pdfVersion: '1.7',
    subset: 'PDF/A-3a',
    tagged: true,
    lang: facts.language,
    displayTitle: true,
    compress: false,
    font: regular,
    info: {
      Title: facts.title,
      Author: facts.author,
      Subject: facts.subject,
      Creator: facts.tool,
      Producer: facts.producer,
      CreationDate: when,
      ModDate: when,
    },
  })
  for (const line of BLANK_SEAL) doc._write(line)
  compressAlike(doc)
  // By any other name than its own, pdfkit would open and compare a font anew at every change of face.
  for (const font of [regular, semibold, italic]) doc.registerFont(font.postscriptName, font)
  doc.appendXML(PDFUA_XMP)
  doc._id = Buffer.from(facts.inputsSha256.slice(0, 32), 'hex')
  doc._addInfo = () => doc.appendXML(factsXmp(facts))
  return doc
}

/** All bytes of a document. Listen before the first page: pdfkit pushes as it writes. */
export function collectBytes(doc: PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = []
    doc.on('data', (chunk) => chunks.push(chunk))
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(chunks))))
    doc.on('error', reject)
  })
}
