import type PDFDocument from 'pdfkit'
import type { StructElement } from 'pdfkit'
import { blankSlot } from '../../seal/signature-slot.ts'
import { SIZES } from '../theme.ts'
import { linesOf, uncut, type Block } from './block.ts'
import { pdfText } from '../pdf/pdf-text.ts'

const GAP_PT = 8
const INSET_PT = 6
const STYLE = { size: 'small', face: 'regular', color: 'ink' } as const
/** Print it, and let nobody move it (ISO 32000-2, table 167). */
const PRINT_AND_LOCKED = 4 + 128

export interface SignatureField {
  /** What stands in the box. */
  words: string
  /** For a screen reader. */
  tooltip: string
  /** Who signs, as readers show it. */
  name: string
  /** The stated date of signing, YYYY-MM-DD. */
  date: string
  /** Length of the signature that will stand in the slot, bytes. */
  slotBytes: number
}

/** The box that readers of PDF files show as the report's signature; its slot is filled when the file is done. Never cut. */
export function signatureField(field: SignatureField): Block {
  return {
    measure({ widthPt }, typeface) {
      const lines = linesOf(field.words, widthPt - 2 * INSET_PT, { style: STYLE, typeface })
      const heightPt = lines.length * SIZES.small.leadPt + 2 * INSET_PT
      return {
        shape: uncut(heightPt, GAP_PT),
        draw(pen, part) {
          const box = { xPt: part.xPt, yPt: part.yPt, widthPt, heightPt }
          pen.artifact(() => pen.fill(box, 'tint'))
          const element = pen.element(part.parent, 'P')
          pen.tagged(element, () =>
            pen.lines(lines, { xPt: box.xPt + INSET_PT, yPt: box.yPt + INSET_PT }, STYLE),
          )
          element.end()
          const form = pen.element(part.parent, 'Form')
          addField(pen.doc, { ...field, ...box, form })
          form.end()
        },
      }
    },
  }
}

/**
 * The one field of the document's form. Written out here: pdfkit's own form asks readers to redraw it, which the archival
 * standard forbids.
 */
function addField(
  doc: PDFDocument,
  at: SignatureField & { xPt: number; yPt: number; widthPt: number; heightPt: number; form: StructElement },
): void {
  const value = doc.ref({
    Type: 'Sig',
    Filter: 'Adobe.PPKLite', // the name ISO 32000-2, 12.8.1 gives for the usual handler
    SubFilter: 'ETSI.CAdES.detached',
    ...blankSlot(at.slotBytes),
    M: pdfText(`D:${at.date.replaceAll('-', '')}000000Z`),
    Name: pdfText(at.name),
  })
  value.end()
  // The words stand on the page itself, so the field looks like nothing of its own.
  const looks = doc.ref({
    Type: 'XObject',
    Subtype: 'Form',
    BBox: [0, 0, at.widthPt, at.heightPt],
    Resources: {},
  })
  looks.end('q Q')
  doc.annotate(at.xPt, at.yPt, at.widthPt, at.heightPt, {
    Subtype: 'Widget',
    FT: 'Sig',
    F: PRINT_AND_LOCKED,
    T: pdfText('signature'),
    TU: pdfText(at.tooltip),
    V: value,
    AP: { N: looks },
    structParent: at.form,
  })
  const form = doc.ref({ Fields: [doc.page.annotations.at(-1)], SigFlags: 3 })
  form.end()
  doc._root.data.AcroForm = form
  doc.endAcroForm = () => doc
}
