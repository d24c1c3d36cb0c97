import { parseCauses, type CausesTable } from './schema.ts'

/** The table in force, and which of its entries are a shop's own (`evidence.spray-response`), for the report to say so. */
export interface CausesInForce {
  table: CausesTable
  changed: readonly string[]
}

/** Figures of the table that a shop may set. */
export const FIGURES = ['unsure', 'lapse'] as const
/** Sections of the table whose entries a shop may set. */
export const SECTIONS = ['causes', 'groups', 'evidence', 'tests', 'follow_ups'] as const

/**
 * The shipped table with a shop's entries in place of those of the same name. An entry is replaced whole; one of a new
 * name is refused, since the report has no words for it. An entry equal to the shipped one does not count as changed.
 *
 * @param raw  both as parsed from YAML and not yet checked; overrides undefined where the shop has none
 * @throws ZodError for either, naming the entry; RangeError for a section or an entry that is none
 */
export function causesInForce(raw: { shipped: unknown; overrides: unknown }): CausesInForce {
  const shipped = checkedTable(raw.shipped)
  if (raw.overrides === undefined || raw.overrides === null) return { table: shipped, changed: [] }
  const own = raw.overrides as Record<string, Record<string, unknown>>
  const unknown = Object.keys(own).filter(
    (key) => !([...FIGURES, ...SECTIONS] as readonly string[]).includes(key),
  )
  if (unknown.length)
    throw new RangeError(
      `no such section: ${unknown.join(', ')}; sections are ${[...FIGURES, ...SECTIONS].join(', ')}`,
    )
  const strange = SECTIONS.flatMap((section) =>
    Object.keys(own[section] ?? {})
      .filter((key) => !(key in shipped[section]))
      .map((key) => `${section}.${key}`),
  )
  if (strange.length)
    throw new RangeError(
      `no such entry: ${strange.join(', ')}; a shop's own values go under names the shipped table has`,
    )
  const sections = Object.fromEntries(
    SECTIONS.map((section) => [section, { ...shipped[section], ...own[section] }]),
  )
  const table = parseCauses({
    ...shipped,
    ...sections,
    unsure: own['unsure'] ?? shipped.unsure,
    lapse: own['lapse'] ?? shipped.lapse,
  })
  const changed = SECTIONS.flatMap((section) =>
    Object.keys(table[section])
      .filter((key) => JSON.stringify(table[section][key]) !== JSON.stringify(shipped[section][key]))
      .map((key) => `${section}.${key}`),
  )
  return { table, changed: [...FIGURES.filter((f) => table[f] !== shipped[f]), ...changed].sort() }
}

// Memo of a pure function: the jobs of a process are weighed with one table, read once, and checking it takes a while.
const checked = new WeakMap<object, CausesTable>()

function checkedTable(raw: unknown): CausesTable {
  const known = typeof raw === 'object' && raw !== null ? checked.get(raw) : undefined
  if (known) return known
  const table = parseCauses(raw)
  checked.set(raw as object, table)
  return table
}
