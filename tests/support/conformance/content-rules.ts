import type { PdfFile } from './pdf-file.ts'
import { fontsOf, glyphRules, type FontFacts } from './font-rules.ts'
import { Name, Reader, Text, type Dict, type Value } from './values.ts'

/** Tag of each marked content of a page by its number. */
export type Marks = ReadonlyMap<number, string>

const PAINTS = new Set(['f', 'F', 'f*', 'S', 's', 'B', 'B*', 'b', 'b*', 'Do', 'sh', 'Tj', 'TJ'])
const OTHERS = new Set(
  'm l c v y h re W W* n w J j M d cm BT ET Td TD Tm T* Tc Tw Tz TL Tr Ts rg RG g G i'.split(' '),
)
const DEEPEST_SAVE = 28

/** What the pages do, operator by operator (ISO 19005-3, 6.2; ISO 14289-1, 7.1): all painting tagged or an artifact, never both. */
export function contentRules(pdf: PdfFile): { found: string[]; marks: Marks[] } {
  const found: string[] = []
  const fonts = fontsOf(pdf, found)
  const marks = pdf.pages.map(({ dict, content }, page) => {
    const walk = new PageWalk(pdf, pdf.dict(dict.get('Resources')), fonts)
    for (const reader = new Reader(content); reader.more();) {
      const token = reader.token()
      if ('value' in token) walk.values.push(token.value)
      else walk.operator(token.operator)
    }
    if (pdf.name(dict.get('Tabs')) !== 'S') walk.found.push('UA 7.18.3: tab order')
    if (!walk.hasText) walk.found.push('a page without text')
    if (walk.open.length > 0 || walk.saves !== 0) walk.found.push('6.2.2: something is left open')
    found.push(...new Set(walk.found.map((each) => `page ${page + 1}: ${each}`)))
    return walk.marks
  })
  return { found, marks }
}

class PageWalk {
  readonly found: string[] = []
  readonly marks = new Map<number, string>()
  readonly open: string[] = []
  hasText = false
  values: Value[] = []
  saves = 0
  #font: FontFacts | undefined
  readonly #pdf: PdfFile
  readonly #resources: Dict
  readonly #fonts: ReadonlyMap<Dict, FontFacts>

  constructor(pdf: PdfFile, resources: Dict, fonts: ReadonlyMap<Dict, FontFacts>) {
    this.#pdf = pdf
    this.#resources = resources
    this.#fonts = fonts
  }

  operator(name: string): void {
    const values = this.values
    this.values = []
    if (PAINTS.has(name) && this.open.length === 0)
      this.found.push(`UA 7.1: ${name} stands outside every tag and artifact`)
    if (name === 'q' && ++this.saves > DEEPEST_SAVE) this.found.push('6.1.13: q nested too deep')
    else if (name === 'Q' && --this.saves < 0) this.found.push('6.2.2: Q without q')
    else if (name === 'BDC' || name === 'BMC') this.#opens(values)
    else if (name === 'EMC') this.open.pop()
    else if (name === 'Tf') this.#font = this.#fonts.get(this.#resource('Font', values[0]))
    else if (name === 'Tj' || name === 'TJ') this.#shows(values)
    else if (name === 'Do') this.#resource('XObject', values[0])
    else if (name === 'gs') this.#resource('ExtGState', values[0])
    else if (name === 'cs' || name === 'CS') this.#space(values[0])
    else if (!PAINTS.has(name) && !OTHERS.has(name) && !['q', 'Q', 'sc', 'scn', 'SC', 'SCN'].includes(name))
      this.found.push(`6.2.2: operator ${name}`)
  }

  #opens([tag, properties]: readonly Value[]): void {
    const role = (tag as Name).name
    const mark = properties instanceof Map ? properties.get('MCID') : undefined
    if (this.open.length > 0) this.found.push(`UA 7.1: ${role} stands within ${this.open.at(-1)}`)
    this.open.push(role)
    if (role === 'Artifact') return
    if (typeof mark !== 'number') this.found.push(`UA 7.1: ${role} without a number`)
    else if (this.marks.has(mark)) this.found.push(`UA 7.1: number ${mark} stands twice`)
    else this.marks.set(mark, role)
  }

  #shows([value]: readonly Value[]): void {
    const font = this.#font
    if (!font) {
      this.found.push('text without a font')
      return
    }
    this.hasText = true
    for (const text of (Array.isArray(value) ? (value as readonly Value[]) : [value]).filter(
      (part) => part instanceof Text,
    )) {
      for (let i = 0; i < text.bytes.length; i += 2)
        this.found.push(...glyphRules(font, text.bytes.readUInt16BE(i)))
    }
  }

  #space(value: Value | undefined): void {
    if (!['DeviceRGB', 'DeviceGray', 'Pattern'].includes((value as Name).name))
      this.#resource('ColorSpace', value)
  }

  #resource(kind: string, name: Value | undefined): Dict {
    const entry = this.#pdf.dict(this.#resources.get(kind)).get((name as Name).name)
    if (entry === undefined)
      this.found.push(`6.2.2: ${kind} ${(name as Name).name} is not among the page's resources`)
    return this.#pdf.dict(entry)
  }
}
