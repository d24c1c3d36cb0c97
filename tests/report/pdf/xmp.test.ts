import { SaxesParser } from 'saxes'
import { describe, expect, test } from 'vitest'
import { escapeXml, factsXmp, PDFUA_XMP, uuidOf } from '../../../src/report/pdf/xmp.ts'

const facts = {
  title: 'A & B <"\u2013"> \u0001',
  author: "O'Hara & Sons",
  subject: 'x',
  language: 'en',
  when: '2026-03-04T00:00:00Z',
  tool: 'burnline',
  producer: 'p',
  inputsSha256: 'ab12cd34ef567890ab12cd34ef567890',
}

describe('metadata', () => {
  test('is well-formed XML whatever the job says', () => {
    const parser = new SaxesParser({ xmlns: true })
    const texts: string[] = []
    parser.on('error', (error) => {
      throw error
    })
    parser.on('text', (text) => texts.push(text))
    parser
      .write(
        `<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">${factsXmp(facts)}${PDFUA_XMP}</rdf:RDF>`,
      )
      .close()
    expect(texts).toContain('A & B <"\u2013"> ')
    expect(texts).toContain("O'Hara & Sons")
  })
  test('leaves out lone surrogates, which XML does not allow', () =>
    expect(escapeXml('a\ud800b\udc00c\ud83d\ude97')).toBe('abc\ud83d\ude97'))
  test('makes a UUID of version 8 and variant 10 (RFC 9562, 5.8)', () =>
    expect(uuidOf(facts.inputsSha256)).toMatch(/^ab12cd34-ef56-8890-[89ab]b12-cd34ef567890$/))
})
