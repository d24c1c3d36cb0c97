/** An element of an SVG file: its name, attributes and child elements. Text between elements is left out. */
export interface SvgElement {
  name: string
  attributes: Readonly<Record<string, string>>
  children: readonly SvgElement[]
}

const TOKEN =
  /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<\/([\w:.-]+)\s*>|<([\w:.-]+)((?:\s+[\w:.-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>|[^<]+/y
const ATTRIBUTE = /([\w:.-]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g
/** Elements deeper than this are no drawing. */
const DEEPEST = 64

interface Open {
  name: string
  attributes: Record<string, string>
  children: SvgElement[]
}

/**
 * The root element of an SVG file, or undefined for text that is not plain, well-formed XML. Strict and small on purpose:
 * a document type, an entity of one's own or a CDATA section is refused, so nothing can be pulled in or blown up.
 */
export function readSvgXml(text: string): SvgElement | undefined {
  const root: Open = { name: '', attributes: {}, children: [] }
  const open: Open[] = [root]
  TOKEN.lastIndex = 0
  while (TOKEN.lastIndex < text.length) {
    const token = TOKEN.exec(text)
    if (!token || open.length > DEEPEST) return undefined
    const [, closed, opened, attributes = '', empty] = token
    if (opened !== undefined) {
      const element: Open = { name: opened, attributes: attributesOf(attributes), children: [] }
      open.at(-1)!.children.push(element)
      if (empty === '') open.push(element)
    } else if (closed !== undefined && (open.length < 2 || open.pop()!.name !== closed)) return undefined
  }
  return open.length === 1 && root.children.length === 1 ? root.children[0] : undefined
}

const attributesOf = (text: string): Record<string, string> =>
  Object.fromEntries(
    [...text.matchAll(ATTRIBUTE)].map(([, name, double, single]) => [name!, double ?? single!]),
  )
