/** What the metadata of the file says of it. */
export interface DocumentFacts {
  title: string
  author: string
  subject: string
  /** BCP 47, such as en. */
  language: string
  /** ISO 8601 with a zone: the job's own date, never the clock. */
  when: string
  tool: string
  producer: string
  /** Lower-case hex, at least 32 digits, from the inputs: the same inputs give the same document. */
  inputsSha256: string
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
}

/** Text for XML 1.0: signs that XML does not allow are left out, the five reserved ones escaped. */
export const escapeXml = (text: string): string =>
  text
    .replace(
      /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
      '',
    )
    .replace(/[&<>"']/g, (sign) => ESCAPES[sign]!)

/** 32 hex digits as a UUID of version 8 (RFC 9562: made by the application's own rule). */
export function uuidOf(hex: string): string {
  const h = `${hex.slice(0, 12)}8${hex.slice(13, 16)}${'89ab'[parseInt(hex[16]!, 16) & 3]}${hex.slice(17, 32)}`
  return [h.slice(0, 8), h.slice(8, 12), h.slice(12, 16), h.slice(16, 20), h.slice(20, 32)].join('-')
}

const property = (ns: string, content: string) =>
  `<rdf:Description rdf:about="" ${ns}>${content}</rdf:Description>\n`
const byLanguage = (tag: string, text: string) =>
  `<dc:${tag}><rdf:Alt><rdf:li xml:lang="x-default">${escapeXml(text)}</rdf:li></rdf:Alt></dc:${tag}>`

/** The file's own properties, escaped; they must agree with the Info dictionary (ISO 19005-3, 6.6.3). */
export function factsXmp(facts: DocumentFacts): string {
  const uuid = `uuid:${uuidOf(facts.inputsSha256)}`
  const when = escapeXml(facts.when)
  return (
    property(
      'xmlns:dc="http://purl.org/dc/elements/1.1/"',
      '<dc:format>application/pdf</dc:format>' +
        byLanguage('title', facts.title) +
        byLanguage('description', facts.subject) +
        `<dc:creator><rdf:Seq><rdf:li>${escapeXml(facts.author)}</rdf:li></rdf:Seq></dc:creator>` +
        `<dc:language><rdf:Bag><rdf:li>${escapeXml(facts.language)}</rdf:li></rdf:Bag></dc:language>`,
    ) +
    property(
      'xmlns:xmp="http://ns.adobe.com/xap/1.0/"',
      `<xmp:CreateDate>${when}</xmp:CreateDate><xmp:ModifyDate>${when}</xmp:ModifyDate>` +
        `<xmp:MetadataDate>${when}</xmp:MetadataDate><xmp:CreatorTool>${escapeXml(facts.tool)}</xmp:CreatorTool>`,
    ) +
    property(
      'xmlns:pdf="http://ns.adobe.com/pdf/1.3/"',
      `<pdf:Producer>${escapeXml(facts.producer)}</pdf:Producer>`,
    ) +
    property(
      'xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"',
      `<xmpMM:DocumentID>${uuid}</xmpMM:DocumentID><xmpMM:InstanceID>${uuid}</xmpMM:InstanceID>`,
    )
  )
}

/**
 * The PDF/UA-1 mark, and the extension schema without which PDF/A would refuse its property (ISO 19005-3, 6.6.2.3).
 * The PDF/A mark is pdfkit's.
 */
export const PDFUA_XMP =
  property('xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"', '<pdfuaid:part>1</pdfuaid:part>') +
  property(
    'xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"' +
      ' xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#"',
    '<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">' +
      '<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>' +
      '<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>' +
      '<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>' +
      '<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">' +
      '<pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>' +
      '<pdfaProperty:category>internal</pdfaProperty:category>' +
      '<pdfaProperty:description>Part of ISO 14289 to which the document conforms</pdfaProperty:description>' +
      '</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas>',
  )
