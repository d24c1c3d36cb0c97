/** The members of pdfkit 0.20.2 that the report uses, underscore members included: hence the exact version in package.json. */
declare module 'pdfkit' {
  export interface PdfRef {
    id: number
    data: Record<string, unknown>
    buffer: Uint8Array[] | Uint8Array
    compress: boolean
    write(chunk: Uint8Array | string): void
    end(chunk?: Uint8Array | string): void
    finalize(): void
  }
  export interface PdfPage {
    width: number
    height: number
    dictionary: PdfRef
    fonts: Record<string, PdfRef>
    xobjects: Record<string, PdfRef>
    annotations: PdfRef[]
  }
  export interface StructOptions {
    title?: string
    lang?: string
    alt?: string
    actual?: string
    bbox?: [number, number, number, number]
    placement?: string
    scope?: 'Column' | 'Row' | 'Both'
  }
  export interface StructContent {
    readonly refs: readonly unknown[]
  }
  export interface StructElement {
    dictionary: PdfRef
    add(child: StructElement | StructContent): StructElement
    end(): void
  }
  export interface GlyphPosition {
    xAdvance: number
    advanceWidth: number
    xOffset: number
    yOffset: number
  }
  export interface EmbeddedFont {
    id: string
    ref(): PdfRef
    /** Glyphs as hex pairs of the subset, and their positions in 1/1000 em. */
    encode(text: string): [string[], GlyphPosition[]]
  }
  export interface Gradient {
    stop(at: number, color: string, opacity?: number): Gradient
    apply(stroke: boolean): void
  }
  export interface OutlineItem {
    addItem(
      title: string,
      options: { top: number; left: number; fit?: boolean; expanded?: boolean },
    ): OutlineItem
  }
  export interface DocumentOptions {
    autoFirstPage: boolean
    bufferPages: boolean
    size: 'A4' | 'LETTER'
    margin: number
    pdfVersion: '1.7'
    subset: 'PDF/A-3a'
    tagged: boolean
    lang: string
    displayTitle: boolean
    compress: boolean
    font: unknown
    info: Record<string, string | Date>
  }
  export default class PDFDocument {
    constructor(options: DocumentOptions)
    page: PdfPage
    outline: OutlineItem
    _id: Uint8Array
    /** Writes a line into the file. */
    _write(line: string): void
    _root: PdfRef
    _font: EmbeddedFont
    _addInfo: () => void
    registerFont(name: string, font: unknown): this
    font(name: string): this
    ref(data?: Record<string, unknown>): PdfRef
    appendXML(xml: string): void
    addPage(): this
    switchToPage(index: number): PdfPage
    bufferedPageRange(): { start: number; count: number }
    addContent(operators: string): this
    struct(type: string, options?: StructOptions): StructElement
    addStructure(element: StructElement): this
    markStructureContent(tag: string): StructContent
    markContent(tag: string, options: { type: string; attached?: string[] }): this
    endMarkedContent(): this
    save(): this
    restore(): this
    fillOpacity(opacity: number): this
    strokeOpacity(opacity: number): this
    linearGradient(...ends: [x0: number, y0: number, x1: number, y1: number]): Gradient
    on(event: 'data', listener: (chunk: Uint8Array) => void): this
    on(event: 'end', listener: () => void): this
    on(event: 'error', listener: (error: Error) => void): this
    goTo(
      x: number,
      y: number,
      width: number,
      height: number,
      name: string,
      options: Record<string, unknown>,
    ): this
    addNamedDestination(name: string, kind: 'XYZ', left: number, top: number, zoom: null): this
    annotate(x: number, y: number, width: number, height: number, options: Record<string, unknown>): this
    endAcroForm(): this
    end(): void
  }
}
