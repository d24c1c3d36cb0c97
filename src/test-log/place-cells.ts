import type { LogRow } from '../job/job-folder.ts'
import { LOG_FILE } from '../job/own-files.ts'
import type { Problem } from '../problems/problem.ts'

/** Columns of problems that do not name theirs. */
const COLUMN_OF: Readonly<Record<string, string>> = {
  'unknown-step': 'step',
  'unknown-reading': 'reading',
  'unknown-trace': 'trace',
  'spray-outside-trace': 'from_s',
  'unusual-value': 'value',
  'reading-twice': 'value',
  'units-mixed': 'unit',
  'unit-doubtful': 'unit',
  'outcome-unread': 'outcome',
  'row-says-nothing': 'outcome',
  'near-place': 'place',
}

/**
 * Problems of the log's cells with the number of their column, as the file has it. A cell that was said to be wrong is
 * not said to be missing as well, though no figure could be taken from it.
 */
export function placeCells(log: readonly LogRow[], problems: readonly Problem[]): Problem[] {
  const rows = new Map(log.map((row) => [row.line, row]))
  return problems.flatMap((p) => {
    const row = p.file === LOG_FILE && p.line !== undefined ? rows.get(p.line) : undefined
    const name =
      p.code === 'unknown-word' && 'key' in p.args
        ? p.args.key
        : 'column' in p.args
          ? p.args.column
          : COLUMN_OF[p.code]
    if (!row || typeof name !== 'string') return [p]
    if (p.code === 'missing-cell' && (row.cells[name] ?? '').trim() !== '') return []
    const column = row.columns?.[name]
    return [column === undefined || p.column !== undefined ? p : { ...p, column }]
  })
}
