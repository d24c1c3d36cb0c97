import { momentInJob, timeOfDay, type JobDays } from '../job/local-time.ts'
import type { LogColumn, Step } from '../job/log-steps.ts'
import { stepMeant } from '../job/step-words.ts'
import { cellSpelt, readingSpelt, unitSpelt } from './spelling.ts'
import { cylinderOf } from './step-kind.ts'
import { STEP_KINDS } from './steps/index.ts'
import { wordsOf } from './outcome-words.ts'

/** Cells of one row, by column; those that are empty are left out. */
export type SpokenRow = Partial<Record<LogColumn, string>>

/** What was said: rows of one test, or that the first words are no step, or the time could be several. */
export type Spoken =
  | { kind: 'rows'; step: Step; rows: readonly SpokenRow[] }
  | { kind: 'no-step'; found: string }
  | { kind: 'time-open'; found: string; meant: readonly string[] }
  | { kind: 'time-unread'; found: string }

/** What is known when words are said. */
export interface SpokenAbout {
  /** Now, ISO with a zone: the time of a row that states none. */
  now: string
  days: JobDays
  /** Cylinders of the engine. */
  cylinders: number
  /** True once a repair stands in the log: what is logged from then on is after it. */
  repaired: boolean
}

const CONDITION = /^(idle|snap|cranking|cruise|\d{3,4} ?rpm)$/i
const NUMBER = String.raw`[+\-\u2212]?(?:\d+(?:[.,]\d+)?|[.,]\d+)`
const FIGURE = new RegExp(`^(${NUMBER})\\s*([%\\p{L}/\\u00b5\\u03a9"]+)?$`, 'u')
const RANGE = new RegExp(`^(${NUMBER})\\s*(?:\\.\\.|\\u2026|to|-)\\s*(${NUMBER})$`)
/** Words before an outcome that belong to it: "no response", "kein Leck". */
const DENIALS =
  /^(?:no|not|still|nicht|kein\w*|pas|sans|sin|non|aucun\w*|immer|noch|strong|slight|clear|weak|rpm|speed|revs|engine|idle|drehzahl)$/i

/**
 * Reads a test in the words of the trade: the step first, then place, readings with units, outcome, in any order that
 * makes sense; `at 9:02`, `after`, `idle`, `limits 10 13.5`, `trace spray-1.csv 30 36`, `note ...` beside them.
 *
 * @param words  one for each word; what was quoted stays together and is a place or free words
 */
export function readSpoken(words: readonly string[], about: SpokenAbout): Spoken {
  const head = stepOf(words)
  if (!head) return { kind: 'no-step', found: words.slice(0, 2).join(' ') }
  const said = new Said(head.step, words.slice(head.length), about)
  return said.read()
}

/** The step the first one to three words name, the longest name first. */
function stepOf(words: readonly string[]): { step: Step; length: number } | undefined {
  for (const length of [3, 2, 1]) {
    const step = words.length >= length ? stepMeant(words.slice(0, length).join(' ')) : undefined
    if (step !== undefined) return { step, length }
  }
  return undefined
}

class Said {
  readonly #step: Step
  readonly #about: SpokenAbout
  #left: string[]
  readonly #shared: SpokenRow

  constructor(step: Step, words: readonly string[], about: SpokenAbout) {
    this.#step = step
    this.#about = about
    this.#left = words
      .flatMap((word) => (/\s/.test(word.trim()) ? [word.trim()] : [word.replace(/[,;]$/, '')]))
      .filter((w) => w !== '')
    this.#shared = { at: about.now, step }
  }

  read(): Spoken {
    const open = this.#time()
    if (open) return open
    const free = this.#step === 'note' || this.#step === 'photo'
    if (free) this.#fill('note', this.#rest())
    else {
      this.#note()
      this.#trace()
      this.#limits()
      this.#stage()
    }
    const rows = free ? [] : this.#readings()
    if (!free) this.#words()
    const all = rows.length > 0 ? rows : [{}]
    return { kind: 'rows', step: this.#step, rows: all.map((row) => ({ ...this.#shared, ...row })) }
  }

  #fill(column: keyof SpokenRow, text: string | undefined): void {
    if (text !== undefined && text !== '') this.#shared[column] = text
  }

  #rest(): string {
    const rest = this.#left.join(' ')
    this.#left = []
    return rest
  }

  /** `at 9:02`, `at 05.03.2026 9:02`, `at 9:02 am`. */
  #time(): Spoken | undefined {
    const from = this.#left.findIndex((word) => /^(?:at|@|um|\u00e0|alas?)$/i.test(word))
    if (from < 0) return undefined
    for (const length of [3, 2, 1]) {
      const text = this.#left.slice(from + 1, from + 1 + length).join(' ')
      if (text === '') continue
      const today = timeOfDay(text)
      const { from: first, to } = this.#about.days
      const day = this.#about.now.slice(0, 10)
      const isToday = first === undefined || (day >= first && (to === undefined || day <= to))
      const at =
        today !== undefined && isToday
          ? `${day}T${today}${this.#about.now.slice(19)}`
          : momentInJob(text, this.#about.days)
      if (at === undefined) continue
      this.#left.splice(from, 1 + length)
      if (typeof at !== 'string') return { kind: 'time-open', found: text, meant: at }
      this.#shared.at = at
      return undefined
    }
    // What looks like a time and is none must not become a word of the outcome.
    const found = this.#left[from + 1] ?? ''
    return /^\d{1,2}(?::|\.\d{1,2}\.)\d/.test(found) ? { kind: 'time-unread', found } : undefined
  }

  #note(): void {
    const at = this.#left.findIndex((word) => /^notes?:?$/i.test(word))
    if (at < 0) return
    this.#fill('note', this.#left.slice(at + 1).join(' '))
    this.#left = this.#left.slice(0, at)
  }

  /** `trace spray-1.csv 30 36`, `trace traces/spray-1.csv from 30 to 36 s`. */
  #trace(): void {
    const at = this.#left.findIndex((word) => /^traces?$/i.test(word))
    const file = at < 0 ? undefined : this.#left[at + 1]
    if (file === undefined) return
    this.#fill('trace', file.includes('/') ? file : `traces/${file}`)
    const after = this.#left.slice(at + 2)
    const instants: string[] = []
    let used = 0
    for (const word of after) {
      const range = RANGE.exec(word)
      const figure = /^(\d+(?:[.,]\d+)?)s?$/.exec(word)
      if (range) instants.push(range[1]!, range[2]!)
      else if (figure) instants.push(figure[1]!)
      else if (!/^(?:from|to|until|s|-|\u2013)$/i.test(word)) break
      used++
      if (instants.length >= 2 && !/^s$/i.test(after[used] ?? '')) break
    }
    this.#fill('from_s', instants[0]?.replace(',', '.'))
    this.#fill('to_s', instants[1]?.replace(',', '.'))
    this.#left.splice(at, 2 + used)
  }

  /** `limits 10 13.5`, `limits 10..13.5`. */
  #limits(): void {
    const at = this.#left.findIndex((word) => /^(?:limits?|expected|spec|soll)$/i.test(word))
    if (at < 0) return
    const range = RANGE.exec(this.#left[at + 1] ?? '')
    const two = [this.#left[at + 1], this.#left[at + 2]].map((w) => FIGURE.exec(w ?? '')?.[1])
    if (range) {
      this.#fill('expected_low', range[1])
      this.#fill('expected_high', range[2])
      this.#left.splice(at, 2)
    } else if (two[0] !== undefined && two[1] !== undefined) {
      this.#fill('expected_low', two[0])
      this.#fill('expected_high', two[1])
      this.#left.splice(at, 3)
    }
  }

  /** A condition is none where it is a reading of the step: idle pressure is the pressure at idle. */
  #stage(): void {
    const kind = STEP_KINDS[this.#step].readings
    this.#left = this.#left.filter((word, i, all) => {
      const pair = `${word} ${all[i + 1] ?? ''}`.trim()
      if (/^(?:before|after)$/i.test(word)) this.#fill('stage', word.toLowerCase())
      else if (CONDITION.test(word) && !kind?.accepts(word.toLowerCase()))
        this.#fill('condition', word.toLowerCase().replace(/^(\d+)rpm$/, '$1 rpm'))
      else if (CONDITION.test(pair)) this.#fill('condition', pair.toLowerCase())
      else return !(/^rpm$/i.test(word) && CONDITION.test(`${all[i - 1] ?? ''} ${word}`))
      return false
    })
    if (this.#shared.stage === undefined && this.#about.repaired && this.#step !== 'repair')
      this.#fill('stage', 'after')
  }

  /** Readings with their figures; what is no reading stays for the place. */
  #readings(): SpokenRow[] {
    const kind = STEP_KINDS[this.#step].readings
    if (kind === undefined) return []
    const rows: SpokenRow[] = []
    const kept: string[] = []
    const bare: string[] = []
    const units = unitsOf(this.#step)
    let unit: string | undefined
    const left = this.#left
    for (let i = 0; i < left.length; i++) {
      const word = left[i]!
      const named = this.#readingAt(left, i)
      if (named) {
        i += named.length - 1
        const figure = FIGURE.exec(left[i + 1] ?? '')
        const row: SpokenRow = { reading: named.reading }
        if (figure && kind.units(named.reading).length > 0) {
          row.value = asFigure(figure[1]!)
          i++
          const own = figure[2] ?? (isUnit(kind.units(named.reading), left[i + 1]) ? left[++i] : undefined)
          if (own !== undefined) row.unit = unitSpelt(own, kind.units(named.reading))
        }
        rows.push(row)
        continue
      }
      const figure = FIGURE.exec(word)
      if (figure && units.length > 0 && (figure[2] === undefined || isUnit(units, figure[2]))) {
        // A word before a figure that is none of the step's readings was meant to be one.
        const unread = this.#isReadingMeant(kept.at(-1)) ? kept.pop() : undefined
        if (unread !== undefined) {
          rows.push({
            reading: unread,
            value: asFigure(figure[1]!),
            ...(figure[2] === undefined ? {} : { unit: figure[2] }),
          })
          continue
        }
        bare.push(asFigure(figure[1]!))
        unit = figure[2] ?? unit
      } else if (isUnit(units, word)) unit = word
      else kept.push(word)
    }
    this.#left = kept
    rows.push(...this.#unnamed(bare))
    // A unit said once, at the end, is that of all.
    unit ??= rows.findLast((row) => row.unit !== undefined)?.unit
    for (const row of rows) {
      if (row.value === undefined) continue
      const own = kind.units(row.reading ?? '')
      const usual = own.length === 1 || this.#step === 'gas' ? own[0] : undefined
      const spelt = unit === undefined ? usual : unitSpelt(unit, own)
      row.unit ??= spelt !== undefined && own.includes(spelt) ? spelt : usual
      if (row.unit === undefined) delete row.unit
    }
    return rows
  }

  #isReadingMeant(word: string | undefined): boolean {
    const { needs, readings } = STEP_KINDS[this.#step]
    const named = readings?.words.every((each) => cylinderOf(each) === undefined) === true
    return named && needs.reading === true && needs.place !== true && /^[\p{L}][\w-]*$/u.test(word ?? '')
  }

  /** Figures without a name: of the one reading the step has, or of the cylinders in turn. */
  #unnamed(bare: readonly string[]): SpokenRow[] {
    const kind = STEP_KINDS[this.#step].readings!
    const cylinders = kind.words.some((word) => cylinderOf(word) !== undefined)
    if (cylinders && (bare.length === this.#about.cylinders || bare.length > 1))
      return bare.map((value, i) => ({ reading: `cylinder ${i + 1}`, value }))
    const only = kind.words.length === 1 || this.#step === 'vacuum' ? kind.words[0] : undefined
    if (only !== undefined && bare.length === 1) return [{ reading: only, value: bare[0]! }]
    return bare.map((value) => ({ value }))
  }

  /** A reading the words at a place name: as the log has it, or `cyl 3`, `#3`. */
  #readingAt(words: readonly string[], at: number): { reading: string; length: number } | undefined {
    const kind = STEP_KINDS[this.#step].readings!
    const cylinder = /^(?:#|cyl(?:inder)?\.?|zyl(?:inder)?\.?)(\d{1,2}):?$/i.exec(words[at]!)?.[1]
    const two = /^(?:cyl(?:inder)?\.?|zyl(?:inder)?\.?|no\.?)$/i.test(words[at]!)
      ? /^#?(\d{1,2}):?$/.exec(words[at + 1] ?? '')?.[1]
      : undefined
    const own = cylinder ?? two
    if (own !== undefined && kind.accepts(`cylinder ${Number(own)}`))
      return { reading: `cylinder ${Number(own)}`, length: two === undefined ? 1 : 2 }
    for (const length of [2, 1]) {
      const written = words.slice(at, at + length).join(' ')
      if (words.length < at + length || FIGURE.test(written)) continue
      const reading = readingSpelt(this.#step, written)
      if (reading !== undefined) return { reading, length }
    }
    return undefined
  }

  /** Place and outcome: what is read as an outcome stands at the end, the place before it. */
  #words(): void {
    const { needs, outcome } = STEP_KINDS[this.#step]
    const words = this.#left
    if (words.length === 0) return
    const quoted = words.findIndex((word) => /\s/.test(word))
    const takesPlace = needs.place === true || this.#step === 'swap'
    let split = words.length
    if (outcome)
      for (let i = words.length - 1; i >= 0; i--) {
        if (!outcome.reads(words.slice(i).join(' '))) continue
        split = i
        while (split > 0 && DENIALS.test(words[split - 1]!)) split--
        break
      }
    if (takesPlace && quoted >= 0 && quoted < split)
      split = Math.max(quoted + 1, Math.min(split, words.length))
    if (takesPlace && quoted === 0 && !outcome) split = 1
    const before = words.slice(0, split).join(' ')
    const after = words.slice(split).join(' ')
    if (takesPlace) this.#fill('place', before)
    else if (before !== '')
      this.#fill(outcome || this.#step === 'repair' ? 'outcome' : 'note', cellSpelt(before))
    if (after !== '')
      this.#fill('outcome', this.#shared.outcome === undefined ? after : `${this.#shared.outcome} ${after}`)
    if (this.#step === 'repair' && this.#shared.outcome === undefined) this.#fill('outcome', 'fixed')
    if (wordsOf(before).length === 0) delete this.#shared.place
  }
}

const unitsOf = (step: Step): readonly string[] => {
  const kind = STEP_KINDS[step].readings
  return kind ? [...new Set([...kind.words, ''].flatMap((word) => kind.units(word)))] : []
}
const isUnit = (units: readonly string[], word: string | undefined): boolean =>
  word !== undefined && units.includes(unitSpelt(word, units))

/** A figure as the log has it: a point for decimals, a plain minus. */
const asFigure = (written: string): string => written.replace('\u2212', '-').replace(',', '.')
