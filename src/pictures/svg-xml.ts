import { SaxesParser } from 'saxes'

/** An element of an SVG file: its name, attributes and child elements. Text between elements is left out. */
export interface SvgElement {
  name: string
  attributes: Readonly<Record<string, string>>
  children: readonly SvgElement[]
}

/** Elements deeper than this, or more of them, are no logo. */
const DEEPEST = 64
const MOST_ELEMENTS = 20_000

interface Open extends SvgElement {
  children: SvgElement[]
}

/**
 * The root element of an SVG file, or undefined for text that is not well-formed XML. Strict on purpose: a document type,
 * an entity of one's own or a CDATA section is refused, so nothing can be pulled in or blown up.
 */
export function readSvgXml(text: string): SvgElement | undefined {
  const parser = new SaxesParser()
  const root: Open = { name: '', attributes: {}, children: [] }
  const open: Open[] = [root]
  let elements = 0
  const refuse = (): never => {
    throw new Error('no plain drawing')
  }
  parser.on('error', refuse)
  parser.on('doctype', refuse)
  parser.on('cdata', refuse)
  parser.on('opentag', ({ name, attributes }) => {
    const element: Open = { name, attributes, children: [] }
    if (open.length > DEEPEST || ++elements > MOST_ELEMENTS) refuse()
    open.at(-1)!.children.push(element)
    open.push(element)
  })
  parser.on('closetag', () => {
    open.pop()
  })
  try {
    parser.write(text).close()
  } catch {
    return undefined // the caller names what is no drawing
  }
  return root.children[0]
}
