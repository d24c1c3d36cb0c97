import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'

/** One node of the structure tree. */
export interface Tag {
  role: string
  alt?: string
  children: readonly Tag[]
  content: readonly string[]
}

/** A report as a reader's program sees it. */
export async function openPdf(bytes: Uint8Array): Promise<PDFDocumentProxy> {
  return getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false }).promise
}

/** All text of a page in the order of its content, artifacts included; a line's end reads as a space. */
export async function pageText(doc: PDFDocumentProxy, page: number): Promise<string> {
  const { items } = await (await doc.getPage(page)).getTextContent()
  return items
    .map((item) => ('str' in item ? item.str + (item.hasEOL ? ' ' : '') : ''))
    .join('')
    .replace(/\s+/g, ' ')
}

export async function allText(doc: PDFDocumentProxy): Promise<string> {
  const pages = await Promise.all(Array.from({ length: doc.numPages }, (_, i) => pageText(doc, i + 1)))
  return pages.join('\n')
}

interface RawNode {
  role?: string
  alt?: string
  children?: RawNode[]
  type?: string
  id?: string
}

const tagOf = (node: RawNode): Tag => ({
  role: node.role ?? '',
  ...(node.alt === undefined ? {} : { alt: node.alt }),
  children: (node.children ?? []).filter((child) => child.role !== undefined).map(tagOf),
  content: contentOf(node),
})

/** An element's own content, and that of the links in it: their words are part of its sentence. */
const contentOf = ({ children = [] }: RawNode): string[] =>
  children.flatMap((child) =>
    child.type === 'content' ? [child.id!] : child.role === 'Link' ? contentOf(child) : [],
  )

/** The structure tree of one page: the part of the document's tree that has content there. */
export async function pageTags(doc: PDFDocumentProxy, page: number): Promise<Tag> {
  return tagOf((await (await doc.getPage(page)).getStructTree()) as unknown as RawNode)
}

/** Every tag of a tree, in reading order. */
export const flat = (tag: Tag): readonly Tag[] => [tag, ...tag.children.flatMap(flat)]

/** The words of every element of one role on a page, in reading order; decoration and other roles are left out. */
export async function wordsOf(doc: PDFDocumentProxy, page: number, role: string): Promise<string[]> {
  const { items } = await (await doc.getPage(page)).getTextContent({ includeMarkedContent: true })
  const words = new Map<string, string>()
  let id = ''
  for (const item of items) {
    if ('str' in item) words.set(id, (words.get(id) ?? '') + item.str + (item.hasEOL ? ' ' : ''))
    else id = item.type.startsWith('begin') ? (item.id ?? '') : ''
  }
  const found = flat(await pageTags(doc, page)).filter((tag) => tag.role === role)
  return found.map(({ content }) =>
    content
      .map((each) => words.get(each) ?? '')
      .join('')
      .replace(/\s+/g, ' ')
      .trim(),
  )
}
