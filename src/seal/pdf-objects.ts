/** Values of PDF syntax (ISO 32000-2, 7.3), as far as a report's embedded files need them. */
export type PdfValue =
  number | boolean | null | PdfName | PdfRefValue | Buffer | readonly PdfValue[] | PdfDict
interface PdfName {
  name: string
}
interface PdfRefValue {
  ref: number
}
export interface PdfDict {
  dict: ReadonlyMap<string, PdfValue>
}

const SPACE = /[\0\t\n\f\r ]/
const DELIMITER = /[\0\t\n\f\r ()<>[\]{}/%]/
const MOST_NESTED = 50

/**
 * Reads one value.
 *
 * @param text  the file, one character a byte
 * @returns the value and the index behind it
 * @throws Error for anything that is no value
 */
export function readValue(text: string, start: number, depth = 0): { value: PdfValue; end: number } {
  const at = skipSpace(text, start)
  if (depth > MOST_NESTED) throw new Error('values nested too deep')
  if (text.startsWith('<<', at)) return readDict(text, at + 2, depth)
  const first = text[at]
  if (first === '[') return readArray(text, at + 1, depth)
  if (first === '(') return readString(text, at + 1)
  if (first === '<') return readHex(text, at + 1)
  if (first === '/') return readName(text, at + 1)
  return readWord(text, at)
}

export function skipSpace(text: string, start: number): number {
  let at = start
  while (at < text.length && SPACE.test(text[at]!)) at++
  return at
}

function readDict(text: string, start: number, depth: number): { value: PdfDict; end: number } {
  const dict = new Map<string, PdfValue>()
  for (let at = skipSpace(text, start); ; at = skipSpace(text, at)) {
    if (text.startsWith('>>', at)) return { value: { dict }, end: at + 2 }
    if (text[at] !== '/') throw new Error('a dictionary has a key that is no name')
    const key = readName(text, at + 1)
    const entry = readValue(text, key.end, depth + 1)
    dict.set(key.value.name, entry.value)
    at = entry.end
  }
}

function readArray(text: string, start: number, depth: number): { value: PdfValue[]; end: number } {
  const value: PdfValue[] = []
  for (let at = skipSpace(text, start); ; at = skipSpace(text, at)) {
    if (text[at] === ']') return { value, end: at + 1 }
    const entry = readValue(text, at, depth + 1)
    value.push(entry.value)
    at = entry.end
  }
}

const ESCAPES: Readonly<Record<string, string>> = {
  n: '\n',
  r: '\r',
  t: '\t',
  b: '\b',
  f: '\f',
  '(': '(',
  ')': ')',
  '\\': '\\',
}

function readString(text: string, start: number): { value: Buffer; end: number } {
  let bytes = ''
  let open = 1
  for (let at = start; at < text.length; at++) {
    const sign = text[at]!
    if (sign === '\\') {
      const octal = /^[0-7]{1,3}/.exec(text.slice(at + 1, at + 4))?.[0]
      if (octal !== undefined) {
        bytes += String.fromCharCode(parseInt(octal, 8) & 255)
        at += octal.length
        continue
      }
      bytes += text[at + 1] === '\n' ? '' : (ESCAPES[text[at + 1]!] ?? text[at + 1] ?? '')
      at++
      continue
    }
    if (sign === '(') open++
    if (sign === ')' && --open === 0) return { value: Buffer.from(bytes, 'latin1'), end: at + 1 }
    bytes += sign
  }
  throw new Error('a string without an end')
}

function readHex(text: string, start: number): { value: Buffer; end: number } {
  const end = text.indexOf('>', start)
  const digits = text.slice(start, end).replaceAll(/\s/g, '')
  if (end < 0 || !/^[0-9a-fA-F]*$/.test(digits)) throw new Error('a string of hex digits has others')
  return { value: Buffer.from(digits.length % 2 ? `${digits}0` : digits, 'hex'), end: end + 1 }
}

function readName(text: string, start: number): { value: PdfName; end: number } {
  let end = start
  while (end < text.length && !DELIMITER.test(text[end]!)) end++
  const name = text
    .slice(start, end)
    .replace(/#([0-9a-fA-F]{2})/g, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)))
  return { value: { name }, end }
}

const LONGEST_WORD = 40

function readWord(text: string, at: number): { value: PdfValue; end: number } {
  const near = text.slice(at, at + LONGEST_WORD)
  const reference = /^(\d+) \d+ R(?![^\0\t\n\f\r ()<>[\]{}/%])/.exec(near)
  if (reference) return { value: { ref: Number(reference[1]) }, end: at + reference[0].length }
  const word = /^[^\0\t\n\f\r ()<>[\]{}/%]+/.exec(near)?.[0] ?? ''
  const end = at + word.length
  if (word === 'true' || word === 'false') return { value: word === 'true', end }
  if (word === 'null') return { value: null, end }
  if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(word)) return { value: Number(word), end }
  throw new Error(`'${word}' is no value`)
}
