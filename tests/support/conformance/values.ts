/** Values of a PDF file as ISO 32000-1, 7.3 has them. A string keeps its bytes, a name its text. */
export class Name {
  readonly name: string
  constructor(name: string) {
    this.name = name
  }
}
export class Text {
  readonly bytes: Buffer
  constructor(bytes: Buffer) {
    this.bytes = bytes
  }
}
export class Ref {
  readonly id: number
  constructor(id: number) {
    this.id = id
  }
}
export type Dict = Map<string, Value>
export type Value = number | boolean | null | Name | Text | Ref | Dict | readonly Value[]
/** A value or an operator of a content stream. */
export type Token = { value: Value } | { operator: string }

const BLANK = /[\0\t\n\f\r ]/
const ESCAPES: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' }

/** Reads values one after the other from a text of one sign a byte. Throws on what is no value: a file is right or it is not. */
export class Reader {
  readonly text: string
  at: number

  constructor(text: string, at = 0) {
    this.text = text
    this.at = at
  }

  /** Whether anything but blanks and comments is left. */
  more(): boolean {
    for (; this.at < this.text.length; this.at++) {
      if (this.text[this.at] === '%') {
        while (this.at < this.text.length && this.text[this.at] !== '\n') this.at++
        continue
      }
      if (!BLANK.test(this.text[this.at]!)) return true
    }
    return false
  }

  value(): Value {
    const token = this.token()
    if ('operator' in token) throw new Error(`'${token.operator}' at ${this.at} is no value`)
    return token.value
  }

  token(): Token {
    this.more()
    const rest = this.text.slice(this.at, this.at + 160)
    const ref = /^(\d+) \d+ R\b/.exec(rest)
    if (ref) return this.#took(ref[0], new Ref(Number(ref[1])))
    if (rest.startsWith('<<')) return { value: this.#dict() }
    if (rest.startsWith('[')) return { value: this.#array() }
    if (rest.startsWith('(')) return { value: this.#literal() }
    if (rest.startsWith('<')) return { value: this.#hex() }
    const name = /^\/([^\0\t\n\f\r ()<>[\]{}/%]*)/.exec(rest)
    if (name)
      return this.#took(
        name[0],
        new Name(
          name[1]!.replaceAll(/#([0-9a-fA-F]{2})/g, (_, hex: string) =>
            String.fromCharCode(parseInt(hex, 16)),
          ),
        ),
      )
    const number = /^[+-]?(\d+\.?\d*|\.\d+)(?=[\0\t\n\f\r ()<>[\]{}/%]|$)/.exec(rest)
    if (number) return this.#took(number[0], Number(number[0]))
    const word = /^[^\0\t\n\f\r ()<>[\]{}/%]+/.exec(rest)
    if (!word) throw new Error(`'${rest.slice(0, 20)}' at ${this.at} is nothing PDF knows`)
    const constant = { true: true, false: false, null: null }[word[0]]
    if (constant !== undefined) return this.#took(word[0], constant)
    this.at += word[0].length
    return { operator: word[0] }
  }

  #took(text: string, value: Value): Token {
    this.at += text.length
    return { value }
  }

  #dict(): Dict {
    const dict: Dict = new Map()
    for (this.at += 2; this.more() && !this.text.startsWith('>>', this.at);) {
      const key = this.value()
      if (!(key instanceof Name)) throw new Error(`a key at ${this.at} is no name`)
      if (dict.has(key.name)) throw new Error(`key ${key.name} stands twice at ${this.at}`)
      dict.set(key.name, this.value())
    }
    this.at += 2
    return dict
  }

  #array(): Value[] {
    const values: Value[] = []
    for (this.at++; this.more() && this.text[this.at] !== ']';) values.push(this.value())
    this.at++
    return values
  }

  #hex(): Text {
    const end = this.text.indexOf('>', this.at)
    const digits = this.text.slice(this.at + 1, end).replaceAll(/\s/g, '')
    if (!/^([0-9a-fA-F]{2})*$/.test(digits))
      throw new Error(`a string at ${this.at} is no even number of hexadecimal digits`)
    this.at = end + 1
    return new Text(Buffer.from(digits, 'hex'))
  }

  #literal(): Text {
    let text = ''
    let depth = 0
    for (; this.at < this.text.length; this.at++) {
      const sign = this.text[this.at]!
      if (sign === '\\') {
        const octal = /^[0-7]{1,3}/.exec(this.text.slice(this.at + 1, this.at + 4))?.[0]
        const next = this.text[this.at + 1]!
        text += octal ? String.fromCharCode(parseInt(octal, 8)) : next === '\n' ? '' : (ESCAPES[next] ?? next)
        this.at += octal?.length ?? 1
        continue
      }
      if (sign === '(' && depth++ === 0) continue
      if (sign === ')' && --depth === 0) break
      text += sign
    }
    this.at++
    return new Text(Buffer.from(text, 'latin1'))
  }
}
