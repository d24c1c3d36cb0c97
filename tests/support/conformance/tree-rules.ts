import type { Marks } from './content-rules.ts'
import type { PdfFile } from './pdf-file.ts'
import { Ref, type Dict, type Value } from './values.ts'

/** Which elements may stand directly in which (ISO 32000-1, 14.8.4; ISO 14289-1, 7.2). */
const CHILDREN: Readonly<Record<string, readonly string[]>> = {
  Table: ['Caption', 'THead', 'TBody', 'TFoot', 'TR'],
  THead: ['TR'],
  TBody: ['TR'],
  TFoot: ['TR'],
  TR: ['TH', 'TD'],
  L: ['Caption', 'L', 'LI'],
  LI: ['Lbl', 'LBody'],
  TOC: ['Caption', 'TOC', 'TOCI'],
  TOCI: ['Lbl', 'Reference', 'NonStruct', 'P', 'TOC'],
}
const PARENTS: Readonly<Record<string, readonly string[]>> = {
  TR: ['Table', 'THead', 'TBody', 'TFoot'],
  THead: ['Table'],
  TBody: ['Table'],
  TFoot: ['Table'],
  TH: ['TR'],
  TD: ['TR'],
  LI: ['L'],
  LBody: ['LI'],
  TOCI: ['TOC'],
}
const STANDARD = new Set(
  (
    'Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H1 H2 H3 H4 H5 H6 L LI Lbl LBody ' +
    'Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot Figure Formula Form'
  ).split(' '),
)

/** Words that say what a figure shows are a sentence, not a name. */
const LEAST_ALT = 11

/** The structure tree and its ties to the pages: every mark claimed by one element and found again through the parent tree. */
export function treeRules(pdf: PdfFile, marks: readonly Marks[]): string[] {
  const root = pdf.dict(pdf.catalog.get('StructTreeRoot'))
  const walk = new TreeWalk(pdf, marks, parentTree(pdf, pdf.dict(root.get('ParentTree'))))
  for (const kid of pdf.list(root.get('K')))
    walk.element(kid, pdf.catalog.get('StructTreeRoot')!, 'StructTreeRoot')
  const unclaimed = marks.flatMap((page, i) =>
    [...page.keys()]
      .filter((mark) => !walk.claimed.has(`${i}/${mark}`))
      .map((mark) => `page ${i + 1}: mark ${mark} belongs to no element`),
  )
  const skips = walk.levels
    .filter((level, i) => level > (walk.levels[i - 1] ?? 0) + 1)
    .map((level) => `UA 7.4.2: heading level ${level} after one that is too high`)
  const tops = walk.levels.filter((level) => level === 1).length
  const heads = [
    ...(walk.levels[0] === 1 ? [] : ['UA 7.4.2: the first heading is no H1']),
    ...(tops > 1 ? [`${tops} headings of the first level`] : []),
  ]
  return [...walk.found, ...unclaimed, ...skips, ...heads]
}

function parentTree(pdf: PdfFile, node: Dict): Map<number, readonly Value[]> {
  const numbers = pdf.list(node.get('Nums'))
  const own = numbers.flatMap((value, i) =>
    i % 2 === 0 ? [[value as number, pdf.list(numbers[i + 1])] as const] : [],
  )
  return new Map([
    ...pdf.list(node.get('Kids')).flatMap((kid) => [...parentTree(pdf, pdf.dict(kid))]),
    ...own,
  ])
}

class TreeWalk {
  readonly found: string[] = []
  readonly levels: number[] = []
  readonly claimed = new Set<string>()
  readonly #pdf: PdfFile
  readonly #marks: readonly Marks[]
  readonly #parents: ReadonlyMap<number, readonly Value[]>
  readonly #pages: readonly Dict[]

  constructor(pdf: PdfFile, marks: readonly Marks[], parents: ReadonlyMap<number, readonly Value[]>) {
    this.#pdf = pdf
    this.#marks = marks
    this.#parents = parents
    this.#pages = pdf.pages.map(({ dict }) => dict)
  }

  element(at: Value, parent: Value, parentRole: string): void {
    const pdf = this.#pdf
    const node = pdf.dict(at)
    const role = pdf.name(node.get('S')) ?? ''
    if (!STANDARD.has(role)) this.found.push(`6.7.3.4: ${role} is no standard type`)
    if ((node.get('P') as Ref | undefined)?.id !== (parent as Ref).id)
      this.found.push(`${role} names another parent`)
    if (CHILDREN[parentRole] && !CHILDREN[parentRole].includes(role))
      this.found.push(`UA 7.2: ${role} in ${parentRole}`)
    if (PARENTS[role] && !PARENTS[role].includes(parentRole))
      this.found.push(`UA 7.2: ${role} under ${parentRole}`)
    if (/^H\d$/.test(role)) this.levels.push(Number(role[1]))
    this.found.push(...this.#attributes(role, node))
    const kids = pdf.list(node.get('K'))
    for (const kid of kids) this.#kid(kid, { at, node, role })
    this.found.push(...this.#shape(role, kids))
  }

  #kid(kid: Value, { at, node, role }: { at: Value; node: Dict; role: string }): void {
    const reference = this.#pdf.dict(kid)
    if (typeof kid === 'number') this.#claim(node.get('Pg'), kid, { at, role })
    else if (this.#pdf.name(reference.get('Type')) === 'MCR')
      this.#claim(reference.get('Pg') ?? node.get('Pg'), reference.get('MCID') as number, { at, role })
    else if (reference.has('S')) {
      this.element(kid, at, role)
      return
    }
    if (CHILDREN[role]) this.found.push(`UA 7.2: content directly in ${role}`)
  }

  #claim(pageRef: Value | undefined, mark: number, { at, role }: { at: Value; role: string }): void {
    const page = this.#pages.indexOf(this.#pdf.dict(pageRef))
    const key = `${page}/${mark}`
    if (this.#marks[page]?.get(mark) !== role)
      this.found.push(`${role} claims mark ${key}, which is ${this.#marks[page]?.get(mark) ?? 'not there'}`)
    if (this.claimed.has(key)) this.found.push(`mark ${key} is claimed twice`)
    this.claimed.add(key)
    const entry = this.#parents.get(this.#pages[page]?.get('StructParents') as number)?.[mark]
    if ((entry as Ref | undefined)?.id !== (at as Ref).id)
      this.found.push(`the parent tree leads mark ${key} elsewhere`)
  }

  #attributes(role: string, node: Dict): string[] {
    const pdf = this.#pdf
    const attributes = pdf.list(node.get('A')).map(pdf.dict)
    if (role === 'TH')
      return attributes.some((a) => ['Row', 'Column', 'Both'].includes(pdf.name(a.get('Scope')) ?? ''))
        ? []
        : ['UA 7.5: TH without scope']
    if (role !== 'Figure') return []
    const alt = pdf.words(node.get('Alt')) ?? ''
    return [
      ...(alt.trim().length < LEAST_ALT ? ['UA 7.3: Figure without Alt that says something'] : []),
      ...(attributes.some((a) => pdf.list(a.get('BBox')).length === 4) ? [] : ['Figure without BBox']),
    ]
  }

  #shape(role: string, kids: readonly Value[]): string[] {
    const pdf = this.#pdf
    const roleOf = (kid: Value) => pdf.name(pdf.dict(kid).get('S')) ?? ''
    const roles = kids.map(roleOf)
    const captions = roles.flatMap((each, i) => (each === 'Caption' ? [i] : []))
    const rows = kids.flatMap((kid) =>
      roleOf(kid) === 'TR'
        ? [kid]
        : /^T(Head|Body|Foot)$/.test(roleOf(kid))
          ? pdf.list(pdf.dict(kid).get('K'))
          : [],
    )
    const cells = new Set(rows.map((row) => pdf.list(pdf.dict(row).get('K')).length))
    return [
      ...(kids.length === 0 ? [`${role} is empty`] : []),
      ...(captions.length > 1 || captions.some((i) => i !== kids.length - 1 || role !== 'Figure')
        ? [`UA 7.2: a caption of ${role}, or one that is not the last`]
        : []),
      ...(role === 'Table' && cells.size !== 1 ? [`UA 7.2: rows of ${[...cells].join(', ')} cells`] : []),
      ...(role === 'LI' && roles.join() !== 'Lbl,LBody' ? [`UA 7.2: a list item of ${roles.join()}`] : []),
      ...(role === 'L' && roles.some((each) => each !== 'LI') ? [`UA 7.2: a list of ${roles.join()}`] : []),
    ]
  }
}
