import { SaxesParser } from 'saxes'
import { contentFacts, readRaw } from './pdf-raw.ts'
import { flat, openPdf, pageTags, type Tag } from './read-pdf.ts'

/**
 * Rules of ISO 19005-3 (PDF/A-3a) and ISO 14289-1 (PDF/UA-1) that can be told from a file itself, with their clauses.
 *
 * @returns the rules that the file breaks
 */
export async function brokenRules(bytes: Uint8Array): Promise<string[]> {
  const raw = readRaw(bytes)
  const doc = await openPdf(bytes)
  const tags = (await Promise.all(Array.from({ length: doc.numPages }, (_, i) => pageTags(doc, i + 1)))).flatMap((page) => flat(page))
  const rules: Record<string, boolean> = { ...fileRules(raw), ...contentRules(raw, doc.numPages), ...tagRules(tags) }
  return Object.entries(rules).filter(([, holds]) => !holds).map(([rule]) => rule)
}

type Raw = ReturnType<typeof readRaw>
const dicts = ({ objects }: Raw, type: string) => [...objects.values()].filter(({ dict }) => new RegExp(`/Type /${type}\\b`).test(dict))

function fileRules(raw: Raw): Record<string, boolean> {
  const catalog = dicts(raw, 'Catalog')[0]!.dict
  const behind = (key: string) => raw.objects.get(Number(new RegExp(`/${key} (\\d+)`).exec(catalog)?.[1]))?.dict ?? ''
  const intent = dicts(raw, 'OutputIntent')[0]?.dict ?? ''
  const composite = [...raw.objects.values()].filter(({ dict }) => dict.includes('/Subtype /Type0'))
  const xml = Buffer.from(dicts(raw, 'Metadata')[0]?.data ?? []).toString('utf8')
  return {
    'head of the file (A 6.1.2)': /^%PDF-1\.7\n%[\x80-\xff]{4}/.test(raw.header),
    'identity in the trailer, no encryption (A 6.1.3)': /\/ID \[<[0-9a-f]{32}> <[0-9a-f]{32}>\]/.test(raw.trailer) && !raw.trailer.includes('/Encrypt'),
    'no LZW, no outside streams, no actions that run (A 6.1.7, 6.5)': [...raw.objects.values()].every(({ dict }) => !/LZWDecode|\/FFilter|\/JavaScript|\/Launch/.test(dict)),
    'fonts embedded (A 6.2.11.4)': dicts(raw, 'FontDescriptor').length > 0 && dicts(raw, 'FontDescriptor').every(({ dict }) => /\/FontFile2 \d+ 0 R/.test(dict)),
    'fonts mapped to Unicode (A 6.2.11.7)': composite.length > 0 && composite.every(({ dict }) => /\/ToUnicode \d+ 0 R/.test(dict)),
    'language (UA 7.2)': /\/Lang \(\w+/.test(catalog),
    'marked and tagged (A 6.7, UA 7.1)': behind('MarkInfo').includes('/Marked true') && /\/StructTreeRoot \d+ 0 R/.test(catalog),
    'title shown (UA 7.1)': behind('ViewerPreferences').includes('/DisplayDocTitle true'),
    'output intent (A 6.2.3)': intent.includes('/S /GTS_PDFA1') && /\/DestOutputProfile \d+/.test(intent),
    'tab order (UA 7.18.3)': dicts(raw, 'Page').every(({ dict }) => dict.includes('/Tabs /S')),
    'metadata name both standards and a title (A 6.6, UA 5)': isXml(xml) && ['<pdfaid:part>3<', '<pdfaid:conformance>A<', '<pdfuaid:part>1<', '<dc:title>'].every((part) => xml.includes(part)),
  }
}

function isXml(text: string): boolean {
  let sound = text !== ''
  const parser = new SaxesParser({ xmlns: true })
  parser.on('error', () => { sound = false })
  parser.write(text).close()
  return sound
}

function contentRules(raw: Raw, pages: number): Record<string, boolean> {
  const facts = dicts(raw, 'Page').map(({ dict }) => contentFacts(raw.objects.get(Number(/\/Contents (\d+)/.exec(dict)![1]))!.data!))
  return {
    'every page has content': facts.length === pages && facts.every(({ codes }) => codes.size > 0),
    'all content marked, marks not nested (UA 7.1)': facts.every((f) => f.unmarked.length === 0 && f.deepestMark === 1),
    'marks and states balanced, states 28 deep at most (A 6.1.13)': facts.every((f) => f.openMarks === 0 && f.openSaves === 0 && f.deepestSave <= 28),
    'no glyph .notdef (A 6.2.11.8)': facts.every(({ codes }) => !codes.has('0000')),
  }
}

function tagRules(tags: readonly Tag[]): Record<string, boolean> {
  const levels = tags.filter(({ role }) => /^H\d$/.test(role)).map(({ role }) => Number(role[1]))
  const figures = tags.filter(({ role }) => role === 'Figure')
  const rows = (table: Tag) => table.children.flatMap((part) => part.children)
  const tables = tags.filter(({ role }) => role === 'Table')
  return {
    'headings begin at H1, one of it, and skip no level (UA 7.4)': levels[0] === 1 && levels.filter((l) => l === 1).length === 1 && levels.every((l, i) => i === 0 || l - levels[i - 1]! <= 1),
    'figures have an alternative text (UA 7.3)': figures.length > 0 && figures.every(({ alt }) => (alt?.trim().length ?? 0) > 10),
    'a caption is the last child of its figure': tags.every(({ role, children }) => {
      const at = children.findIndex((child) => child.role === 'Caption')
      return at < 0 || (role === 'Figure' && at === children.length - 1)
    }),
    'tables are regular (UA 7.2, 7.5)': tables.length > 0 && tables.every((table) => new Set(rows(table).map(({ children }) => children.length)).size === 1
      && rows(table).every(({ role, children }) => role === 'TR' && children.every((cell) => ['TH', 'TD'].includes(cell.role)))),
    'lists hold items, items a body (UA 7.2)': tags.filter(({ role }) => role === 'L').every((list) => list.children.every((item) =>
      item.role === 'LI' && item.children.map(({ role }) => role).join() === 'Lbl,LBody')),
  }
}
