import { KNOWN_COLUMNS } from './log-steps.ts'

type Column = (typeof KNOWN_COLUMNS)[number]

/** Names people give the columns of the log, beside the contract's own; in the languages of the reports. */
const CALLED: Readonly<Partial<Record<Column, string>>> = {
  at: 'time|date|datetime|date/time|when|zeit|zeitpunkt|datum|uhrzeit|heure|hora|fecha',
  step: 'test|check|schritt|pr\u00fcfung|essai|\u00e9tape|prueba|paso',
  place: 'location|where|spot|ort|stelle|lieu|endroit|lugar',
  condition: 'zustand|betriebszustand|condici\u00f3n',
  reading: 'measurement|signal|messgr\u00f6\u00dfe|mesure|lectura',
  value: 'wert|valeur|valor',
  unit: 'units|einheit|unit\u00e9|unidad',
  expected_low: 'min|minimum|low|limit_low',
  expected_high: 'max|maximum|high|limit_high',
  outcome: 'result|ergebnis|r\u00e9sultat|resultado',
  note: 'notes|remark|remarks|comment|comments|bemerkung|remarque|nota',
}

/** The unit a header gives its figures: `value (psi)`, `Wert [bar]`. */
const WITH_UNIT = /^(.+?)\s*[([]\s*([^()[\]]+?)\s*[)\]]$/

/** The unit written with the column of figures in a header; undefined where there is none. */
export const unitOfValues = (cells: readonly string[]): string | undefined =>
  cells.flatMap((cell) => {
    const found = WITH_UNIT.exec(cell.trim())
    return found && columnsMeant([found[1]!])[0] === 'value' ? [found[2]!] : []
  })[0]

/** The names of a header as the contract has them; a usual name counts where its column is not there under its own. */
export function columnsMeant(names: readonly string[]): string[] {
  const plain = names.map((name) => WITH_UNIT.exec(name.trim())?.[1] ?? name.trim())
  const own = plain.map((name) => KNOWN_COLUMNS.find((known) => known === name.toLowerCase()))
  const taken = new Set<string>(own.filter((name) => name !== undefined))
  return plain.map((name, i) => {
    if (own[i] !== undefined) return own[i]
    const called = (Object.entries(CALLED) as [Column, string][]).find(
      ([column, words]) => !taken.has(column) && words.split('|').includes(name.toLowerCase()),
    )?.[0]
    if (called !== undefined) taken.add(called)
    return called ?? names[i]!.trim()
  })
}
