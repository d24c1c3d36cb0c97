import { nameAndUnit } from './header-units.ts'

/** What recorders call one triggered stretch in a header, before its number; in the languages their programs speak. */
const FRAME_WORD =
  /^(?:frame|segment|seg|waveform|wfm|record|rec|sweep|trigger|trig|acquisition|acq|shot|buffer|capture|block|trame|trama|segmento|bloc|bloque|aufnahme|aufzeichnung|abschnitt|enregistrement|registro|captura)$/i
/** Names of a recorder's own channels, which run side by side. */
const CHANNEL_WORD =
  /^(?:ch|chan|channel|kanal|canal|voie|input|in|ai|an|analog|probe|trace|cyl|cylinder|zyl|zylinder)$/i
/** Columns of a frame word that are taken for frames; of another name or none more, since no recorder has as many inputs. */
const LEAST_NAMED = 3
const LEAST_OTHER = 17

/**
 * Further columns that hold later frames of the signal in column `index`, where the file shows it: they follow it, are
 * named and numbered on from it (`Frame 1`, `Frame 2`), or have no names and are more than any recorder has inputs.
 *
 * @param taken  columns the job gives another meaning
 * @returns      0-based, in order; empty where the file does not show it
 */
export function furtherFrames(
  { columns, header }: { columns: number; header: readonly string[] | undefined },
  index: number,
  taken: ReadonlySet<number>,
): number[] {
  const own = header ? numbered(header[index] ?? '') : { stem: '', number: index }
  if (!own) return []
  const found: number[] = []
  for (let at = index + 1; at < columns && !taken.has(at); at++) {
    const next = header ? numbered(header[at] ?? '') : { stem: '', number: at }
    if (next?.stem !== own.stem || next.number !== own.number + found.length + 1) break
    found.push(at)
  }
  if (CHANNEL_WORD.test(own.stem)) return []
  return found.length + 1 >= (FRAME_WORD.test(own.stem) ? LEAST_NAMED : LEAST_OTHER) ? found : []
}

/** A name that ends in a number, parted: `Frame 12 (V)` is `Frame` and 12. */
function numbered(name: string): { stem: string; number: number } | undefined {
  const found = /^(.*?)[\s_#.:-]*(\d+)$/.exec(nameAndUnit(name).name)
  return found ? { stem: found[1]!, number: Number(found[2]) } : undefined
}

/** A line of words alone that heads one block among several: `Frame 7`, `Segment,2`, `# Record 3`. */
export const isFrameTitle = (cells: readonly string[]): boolean => {
  const filled = cells.filter((cell) => cell.trim() !== '')
  const [, stem = ''] = /^\W*([\p{L}]+)[\s_#.:=-]*(?:\d+\W*)?$/u.exec(filled[0]?.trim() ?? '') ?? []
  const counted = /\d/.test(filled.join(' '))
  return filled.length <= 2 && counted && FRAME_WORD.test(stem)
}
