import { sentence, type Sentence } from '../texts/messages.ts'
import { FUEL_WORDS, IGNITION_WORDS } from '../job/usual-words.ts'
import type { Engine, Job } from '../job/schema.ts'

/** What a line says of vehicle and engine: `2009 Demo Carrier V6 98123 mi E10`. Absent where it says nothing of it. */
export interface Facts {
  year?: number
  make?: string
  model?: string
  odometer?: Job['vehicle']['odometer']
  vin?: string
  plate?: string
  cylinders?: number
  firingOrder?: readonly number[]
  ignition?: Engine['ignition']
  fuel?: Engine['fuel']
  displacementL?: number
  /** Taken for something near it, which is told. */
  taken: readonly Sentence[]
}

/** Facts of a line, or why part of it cannot be. */
export interface FactsRead {
  facts: Facts
  refused: readonly Sentence[]
}

const MOST_CYLINDERS = 16

/**
 * Reads facts in any order, in the words of the trade. What is no fact of another kind is make and model where those are
 * asked for, else it is refused.
 *
 * @param known  facts said before: an order is held against their cylinders
 * @param free   whether words left over are make and model
 */
export function readFacts(line: string, { known, free }: { known: Facts; free: boolean }): FactsRead {
  const said = new Line(line, known)
  return said.read(free)
}

class Line {
  #left: string
  readonly #known: Facts
  readonly #found: { -readonly [K in keyof Facts]: Facts[K] } = { taken: [] }
  readonly #refused: Sentence[] = []

  constructor(line: string, known: Facts) {
    // A comma between two figures may part an order or decimals; any other parts facts.
    this.#left = ` ${line.replace(/[;,](?=\s|$)|(?<=\D)[;,]|[;,](?=\D)/g, ' ')} `
    this.#known = known
  }

  read(free: boolean): FactsRead {
    this.#vin()
    this.#words()
    this.#odometer()
    this.#cylinders()
    this.#order()
    this.#displacement()
    this.#year()
    const rest = this.#left
      .trim()
      .split(/\s+/)
      .filter((word) => word !== '')
    if (free && rest[0] !== undefined) {
      this.#found.make = rest[0]
      if (rest.length > 1) this.#found.model = rest.slice(1).join(' ')
    } else if (rest.length > 0)
      this.#refused.push(sentence('new.refused.words', { found: { words: rest.join(' ') } }))
    return { facts: { ...this.#found }, refused: this.#refused }
  }

  /** Takes what a pattern finds out of the line. */
  #take(pattern: RegExp): RegExpExecArray | undefined {
    const found = pattern.exec(this.#left)
    if (!found) return undefined
    this.#left = `${this.#left.slice(0, found.index)} ${this.#left.slice(found.index + found[0].length)}`
    return found
  }

  #vin(): void {
    const vin = this.#take(/(?<=\s)(?:vin[:\s]*)?([A-HJ-NPR-Z0-9]{17})(?=\s)/i)
    if (vin) this.#found.vin = vin[1]!.toUpperCase()
    const plate = this.#take(/(?<=\s)(?:plate|reg|kennzeichen|immat\w*|matr\u00edcula)[:\s]+(\S+)(?=\s)/i)
    if (plate) this.#found.plate = plate[1]!
  }

  #words(): void {
    const diesel = this.#take(/(?<=\s)(?:diesel|tdi|hdi|cdi|gazole|gas\u00f3leo)(?=\s)/i)
    if (diesel) this.#refused.push(sentence('new.refused.diesel'))
    for (const { pattern, means, near } of FUEL_WORDS) {
      const found = this.#take(withEdges(pattern))
      if (!found) continue
      this.#found.fuel = means
      if (near) this.#taken(sentence('new.taken-as', { found: { words: found[0].trim() }, taken: means }))
    }
    for (const { pattern, means } of IGNITION_WORDS)
      if (this.#take(withEdges(pattern))) this.#found.ignition = means
  }

  #taken(what: Sentence): void {
    this.#found.taken = [...this.#found.taken, what]
  }

  /** Each cylinder once, parted by hyphens, commas or blanks. */
  #order(): void {
    const found =
      this.#take(/(?<=\s)(\d{1,2}(?:\s*[-\u2013,]\s*\d{1,2}){1,15})(?=\s)/) ??
      this.#take(/(?<=\s)([1-8](?: [1-8]){2,7})(?=\s)/)
    if (!found) return
    const order = found[1]!.split(/[^\d]+/).map(Number)
    const count = this.#found.cylinders ?? this.#known.cylinders
    const whole = order.every((n) => n >= 1 && n <= order.length) && new Set(order).size === order.length
    if (count !== undefined && order.length !== count)
      this.#refused.push(sentence('new.refused.order-length', { found: found[1]!, count }))
    else if (!whole)
      this.#refused.push(sentence('new.refused.order', { found: found[1]!, count: order.length }))
    else {
      this.#found.firingOrder = order
      this.#found.cylinders = order.length
    }
  }

  #odometer(): void {
    const found = this.#take(
      /(?<=\s)(\d{1,3}(?:[ .,']\d{3})+|\d+)\s*(k)?\s*(mi|miles|meilen|millas|km|kms|kilom\w*)(?=\s)/i,
    )
    if (!found) return
    const value = Number(found[1]!.replace(/[ .,']/g, '')) * (found[2] === undefined ? 1 : 1000)
    this.#found.odometer = { value, unit: /^k/i.test(found[3]!) ? 'km' : 'mi' }
  }

  #cylinders(): void {
    const found =
      this.#take(/(?<=\s)[VWILRHB]-?(\d{1,2})(?=\s)/i) ??
      this.#take(/(?<=\s)(\d{1,2})\s*-?\s*(?:cyl\w*|zyl\w*|cil\w*)\.?(?=\s)/i) ??
      this.#take(/(?<=\s)(?:inline|straight|flat|boxer|reihe)[ -]*(\d{1,2})(?=\s)/i)
    const count = found ? Number(found[1]) : undefined
    if (count !== undefined && count >= 1 && count <= MOST_CYLINDERS) this.#found.cylinders = count
    else if (found) this.#refused.push(sentence('new.refused.cylinders', { found: found[0].trim() }))
  }

  #displacement(): void {
    const litres = this.#take(/(?<=\s)(\d{1,2}[.,]\d{1,2})\s*(?:l|litres?|liters?|liter)?(?=\s)/i)
    const cc = litres ? undefined : this.#take(/(?<=\s)(\d{3,4})\s*(?:cc|ccm|cm3|cm\u00b3)(?=\s)/i)
    if (litres) this.#found.displacementL = Number(litres[1]!.replace(',', '.'))
    else if (cc) this.#found.displacementL = Number(cc[1]) / 1000
  }

  #year(): void {
    const found = this.#take(/(?<=\s)(19[3-9]\d|20\d\d)(?=\s)/)
    if (found) this.#found.year = Number(found[1])
  }
}

const withEdges = (pattern: string): RegExp => new RegExp(`(?<=\\s)(?:${pattern})(?=\\s)`, 'i')

/** What was said later beside what was said before. */
export const withFacts = (before: Facts, later: Facts): Facts => ({
  ...before,
  ...later,
  taken: [...before.taken, ...later.taken],
})
export const NO_FACTS: Facts = { taken: [] }
