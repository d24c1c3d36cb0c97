import type { PdfFile } from './pdf-file.ts'
import { Ref, Text, type Dict, type Value } from './values.ts'

/** Bits of an annotation's flags (ISO 32000-1, table 165). */
const PRINT = 4
const UNSEEN = 1 + 2 + 32 + 256 // invisible, hidden, no view, toggled

/** Annotations and the one form field a report may have: a signature (ISO 19005-3, 6.3 and 6.4; ISO 14289-1, 7.18). */
export function formRules(pdf: PdfFile): string[] {
  const pages = pdf.pages.map(({ dict }) => dict)
  const fields = pdf.list(pdf.dict(pdf.catalog.get('AcroForm')).get('Fields'))
  const shown = pages.flatMap((page) => pdf.list(page.get('Annots')))
  const form = pdf.dict(pdf.catalog.get('AcroForm'))
  return [
    ...(pdf.get(form.get('NeedAppearances')) === true ? ['6.4.1: NeedAppearances'] : []),
    ...(fields.length > 1 ? ['more than one form field'] : []),
    ...fields.filter((field) => !shown.some((each) => same(each, field))).map(() => 'a field on no page'),
    ...pages.flatMap((page) => pdf.list(page.get('Annots')).flatMap((each) => annotation(pdf, each, page))),
  ]
}

const same = (a: Value, b: Value): boolean => a instanceof Ref && b instanceof Ref && a.id === b.id

function annotation(pdf: PdfFile, at: Value, page: Dict): string[] {
  const dict = pdf.dict(at)
  const flags = pdf.get(dict.get('F'))
  const looks = pdf.dict(dict.get('AP'))
  const element = elementOf(pdf, pdf.get(dict.get('StructParent')))
  const references = pdf.list(element.get('K')).map(pdf.dict)
  if (pdf.name(dict.get('Subtype')) === 'Link') return link(pdf, at, page)
  if (pdf.name(dict.get('Subtype')) !== 'Widget' || pdf.name(dict.get('FT')) !== 'Sig')
    return ['an annotation that is no signature, which nothing here checks']
  return [
    ...(typeof flags === 'number' && flags & PRINT && !(flags & UNSEEN) ? [] : ['6.3.2: flags']),
    ...(looks.size === 1 && looks.has('N') && pdf.stream(looks.get('N')).length > 0
      ? []
      : ['6.3.3: appearance']),
    ...((pdf.words(dict.get('TU')) ?? '').trim() === '' ? ['UA 7.18.1: no TU'] : []),
    ...(pdf.name(element.get('S')) === 'Form' ? [] : ['UA 7.18.4: not in a Form element']),
    ...(references.some(
      (each) =>
        pdf.name(each.get('Type')) === 'OBJR' &&
        same(each.get('Obj')!, at) &&
        pdf.dict(each.get('Pg') ?? element.get('Pg')) === page,
    )
      ? []
      : ['UA 7.18.4: its element does not hold it']),
    ...signature(pdf, pdf.dict(dict.get('V'))),
  ]
}

/** A link within the file: printed, described, held by a Link element, and leading to a place that is there (7.18.5). */
function link(pdf: PdfFile, at: Value, page: Dict): string[] {
  const dict = pdf.dict(at)
  const flags = pdf.get(dict.get('F'))
  const element = elementOf(pdf, pdf.get(dict.get('StructParent')))
  const references = pdf.list(element.get('K')).map(pdf.dict)
  const action = pdf.dict(dict.get('A'))
  const goal = pdf.words(action.get('D'))
  const goals = namesIn(pdf, pdf.dict(pdf.dict(pdf.catalog.get('Names')).get('Dests')))
  return [
    ...(typeof flags === 'number' && flags & PRINT && !(flags & UNSEEN) ? [] : ['6.3.2: flags of a link']),
    ...((pdf.words(dict.get('Contents')) ?? '').trim() === '' ? ['UA 7.18.5: no Contents'] : []),
    ...(pdf.name(element.get('S')) === 'Link' ? [] : ['UA 7.18.5: not in a Link element']),
    ...(references.some(
      (each) =>
        pdf.name(each.get('Type')) === 'OBJR' &&
        same(each.get('Obj')!, at) &&
        pdf.dict(each.get('Pg') ?? element.get('Pg')) === page,
    )
      ? []
      : ['UA 7.18.5: its element does not hold it']),
    ...(pdf.name(action.get('S')) === 'GoTo' && goal !== undefined && goals.includes(goal)
      ? []
      : ['a link that leads nowhere']),
  ]
}

/** Every name of a name tree. */
function namesIn(pdf: PdfFile, node: Dict): string[] {
  const own = pdf.list(node.get('Names')).flatMap((value, i) => (i % 2 === 0 ? (pdf.words(value) ?? []) : []))
  return [...own, ...pdf.list(node.get('Kids')).flatMap((kid) => namesIn(pdf, pdf.dict(kid)))]
}

/** The element an annotation's entry of the parent tree leads to. */
function elementOf(pdf: PdfFile, key: Value | undefined): Dict {
  const walk = (node: Dict): Value | undefined => {
    const numbers = pdf.list(node.get('Nums'))
    const i = numbers.findIndex((value, at) => at % 2 === 0 && value === key)
    if (i >= 0) return numbers[i + 1]
    return pdf
      .list(node.get('Kids'))
      .map((kid) => walk(pdf.dict(kid)))
      .find((value) => value !== undefined)
  }
  return pdf.dict(walk(pdf.dict(pdf.dict(pdf.catalog.get('StructTreeRoot')).get('ParentTree'))))
}

/** One signer over the whole file but the slot (ISO 19005-3, 6.4.3). */
function signature(pdf: PdfFile, dict: Dict): string[] {
  const [zero, from, to, rest] = pdf.list(dict.get('ByteRange')) as number[]
  const contents = pdf.get(dict.get('Contents'))
  const slot = contents instanceof Text ? 2 * contents.bytes.length + 2 : NaN
  const whole = zero === 0 && to! + rest! === pdf.bytes.length && to! - from! === slot
  return [
    ...(whole && pdf.text[from!] === '<' && pdf.text[to! - 1] === '>' ? [] : ['6.4.3: byte range']),
    ...(pdf.name(dict.get('SubFilter')) === 'ETSI.CAdES.detached' ? [] : ['6.4.3: kind of signature']),
  ]
}
