import type PDFDocument from 'pdfkit'
import type { OutlineItem, StructElement, StructOptions } from 'pdfkit'
import { cleanText } from '../text/clean-text.ts'
import type { Face, Typeface } from '../text/typeface.ts'
import { COLORS, SIZES, type ColorName, type SizeName } from '../theme.ts'
import { parseColor } from './color.ts'
import { num, showText } from './show-text.ts'

/** How a text looks. */
export interface Style {
  size: SizeName
  face: Face
  color: ColorName
}

/** Where a text or shape is put: top-left corner in points from the page's top-left corner. */
export interface At {
  xPt: number
  yPt: number
}
export interface Box extends At {
  widthPt: number
  heightPt: number
}

/**
 * Draws on the current page. Everything drawn must stand inside `tagged` (part of the document's meaning) or
 * `artifact` (decoration), one after the other and never one in the other: PDF/UA allows no third thing.
 */
export class Pen {
  readonly doc: PDFDocument
  readonly typeface: Typeface
  /** Evidence marks with a row of their own, and those whose row was drawn. */
  readonly #marks: ReadonlySet<string>
  readonly #anchored = new Set<string>()
  /** Bookmarks still open to entries below them. */
  #outline: { level: number; item: OutlineItem }[] = []

  constructor(doc: PDFDocument, typeface: Typeface, marks: ReadonlySet<string> = new Set()) {
    this.doc = doc
    this.typeface = typeface
    this.#marks = marks
  }

  /** A new element of the structure tree under `parent`; end() it when its last content is drawn. */
  element(parent: StructElement, tag: string, options: StructOptions = {}): StructElement {
    const element = this.doc.struct(tag, options)
    parent.add(element)
    return element
  }

  /** Draws content that belongs to `element`. May be called again, on another page too. */
  tagged(element: StructElement, draw: () => void): void {
    const content = this.doc.markStructureContent(String(element.dictionary.data.S))
    draw()
    this.doc.endMarkedContent()
    element.add(content)
  }

  /** Like `tagged`, for drawing that waits. */
  async taggedAsync(element: StructElement, draw: () => Promise<void>): Promise<void> {
    const content = this.doc.markStructureContent(String(element.dictionary.data.S))
    await draw()
    this.doc.endMarkedContent()
    element.add(content)
  }

  /** Draws decoration, or with type Pagination running heads and repeated table heads. */
  artifact(
    draw: () => void,
    how: { type: 'Layout' | 'Pagination'; attached?: string[] } = { type: 'Layout' },
  ): void {
    this.doc.markContent('Artifact', how)
    draw()
    this.doc.endMarkedContent()
  }

  /** One line of text; `yPt` is the top of its line. Returns nothing: measure with `widthOf`. */
  text(text: string, at: At, style: Style): void {
    const { sizePt, leadPt } = SIZES[style.size]
    this.#color(style.color, 'rg')
    const baselinePt = at.yPt + leadPt / 2 + CAP_MIDDLE_EM * sizePt
    showText(this.doc, cleanText(text, this.typeface.has), {
      fontName: this.typeface.fonts[style.face].postscriptName,
      sizePt,
      matrix: [1, 0, 0, 1, at.xPt, baselinePt],
    })
  }

  /** Lines below each other, each but the last closed by a space so that reading aloud does not join words. */
  lines(lines: readonly string[], at: At, style: Style): void {
    const { leadPt } = SIZES[style.size]
    lines.forEach((line, i) => {
      this.text(i < lines.length - 1 ? `${line} ` : line, { xPt: at.xPt, yPt: at.yPt + i * leadPt }, style)
    })
  }

  /** Lines of an element's text; a mark in them that has a row of its own is a link to that row. */
  words(element: StructElement, lines: readonly string[], at: At, style: Style): void {
    const { leadPt } = SIZES[style.size]
    let plain: (() => void)[] = []
    const drawPlain = () => {
      const pieces = plain
      plain = []
      if (pieces.length > 0) this.tagged(element, () => pieces.forEach((draw) => draw()))
    }
    lines.forEach((line, i) => {
      const text = i < lines.length - 1 ? `${line} ` : line
      const yPt = at.yPt + i * leadPt
      const piece = (from: number, to: number) => {
        const xPt = at.xPt + (from === 0 ? 0 : this.widthOf(text.slice(0, from), style))
        return { xPt, draw: () => this.text(text.slice(from, to), { xPt, yPt }, style) }
      }
      let from = 0
      for (const { 0: mark, index } of text.matchAll(MARK)) {
        if (!this.#marks.has(mark)) continue
        if (index > from) plain.push(piece(from, index).draw)
        drawPlain()
        from = index + mark.length
        const { xPt, draw } = piece(index, from)
        const box = { xPt, yPt, widthPt: this.widthOf(mark, style), heightPt: leadPt }
        this.link(element, { anchor: anchorOf(mark), words: mark, box }, draw)
      }
      if (from < text.length || text === '') plain.push(piece(from, text.length).draw)
    })
    drawPlain()
  }

  /** Whether any of these lines holds a mark that is a link. */
  hasMarks(lines: readonly string[]): boolean {
    return lines.some((line) => [...line.matchAll(MARK)].some(([mark]) => this.#marks.has(mark)))
  }

  /** The row of a mark, which links lead to. */
  rowOf(mark: string, yPt: number): void {
    if (this.#anchored.has(mark)) return
    this.#anchored.add(mark)
    this.anchor(anchorOf(mark), yPt)
  }

  /** Width of a text in one line, pt. */
  widthOf(text: string, style: Pick<Style, 'size' | 'face'>): number {
    return this.typeface.width(cleanText(text, this.typeface.has), {
      face: style.face,
      sizePt: SIZES[style.size].sizePt,
    })
  }

  /** A straight level rule. */
  rule(at: At & { widthPt: number }, how: { color: ColorName; thickPt: number }): void {
    this.#color(how.color, 'rg')
    this.doc.addContent(
      `${num(at.xPt)} ${num(at.yPt - how.thickPt / 2)} ${num(at.widthPt)} ${num(how.thickPt)} re f`,
    )
  }

  /** An entry of the bookmarks, under the last one of a higher level, that leads to this height of the current page. */
  bookmark(title: string, yPt: number, level: 1 | 2 | 3): void {
    this.#outline = this.#outline.filter((open) => open.level < level)
    const parent = this.#outline.at(-1)?.item ?? this.doc.outline
    // pdfkit takes `left` off the page's width.
    const item = parent.addItem(title, {
      top: Math.max(0, yPt - BOOKMARK_ROOM_PT),
      left: this.doc.page.width,
      fit: false,
      expanded: level < 3,
    })
    this.#outline.push({ level, item })
  }

  /** A place that links of this document lead to. */
  anchor(name: string, yPt: number): void {
    this.doc.addNamedDestination(name, 'XYZ', 0, Math.max(0, yPt - BOOKMARK_ROOM_PT), null)
  }

  /** Content that leads to an anchor; `words` say where to for those who hear it. */
  link(parent: StructElement, to: { anchor: string; words: string; box: Box }, draw: () => void): void {
    const element = this.element(parent, 'Link')
    this.tagged(element, draw)
    const { xPt, yPt, widthPt, heightPt } = to.box
    this.doc.goTo(xPt, yPt, widthPt, heightPt, to.anchor, {
      structParent: element,
      Contents: new String(to.words),
      F: PRINTED,
    })
    // On the page it stands on: pdfkit takes the page current at the end for the link's reference.
    element.end()
  }

  fill(box: Box, color: ColorName): void {
    this.#color(color, 'rg')
    this.doc.addContent(`${num(box.xPt)} ${num(box.yPt)} ${num(box.widthPt)} ${num(box.heightPt)} re f`)
  }

  #color(color: ColorName, operator: 'rg' | 'RG'): void {
    const { r, g, b } = parseColor(COLORS[color])
    this.doc.addContent(`${[r, g, b].map((part) => num(part, 3)).join(' ')} ${operator}`)
  }
}

/** An evidence mark: C1, C1·5, P1·5, T3. */
const MARK = /(?<![\p{L}\d.·])[CPT]\d{1,4}(?:·\d{1,2})?(?![\p{L}\d·])/gu
const anchorOf = (mark: string): string => `mark-${mark.replace('·', '-')}`

/** Flag of an annotation that is printed (ISO 32000-1, 12.5.3). */
const PRINTED = 4
/** Half the height of a capital of the typeface (660/1000 em): puts capitals in the middle of their line. */
const CAP_MIDDLE_EM = 0.33
/** White kept above a bookmarked place. */
const BOOKMARK_ROOM_PT = 12
