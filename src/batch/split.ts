/** Part i of n, i from 1 on. */
export interface Part {
  index: number
  of: number
}

/** What a job costs beside its bytes, as bytes: reading, drawing and writing a report take as long as decoding this many. */
const FIXED_BYTES = 8 * 2 ** 20

/**
 * Splits jobs into parts of about equal work: heaviest first, each to the part with the least so far. The split hangs
 * only on names and sizes, not on the order in which they are listed, so every machine that has the same list finds
 * the same parts; together the parts hold every job once.
 *
 * @returns  the jobs of the part, in the order given
 */
export function partOf<J extends { folder: string; bytes: number }>(jobs: readonly J[], part: Part): J[] {
  const loads = Array.from({ length: part.of }, () => 0)
  const mine = new Set<J>()
  for (const job of jobs.toSorted((a, b) => b.bytes - a.bytes || (a.folder < b.folder ? -1 : 1))) {
    const least = loads.indexOf(Math.min(...loads))
    loads[least]! += job.bytes + FIXED_BYTES
    if (least === part.index - 1) mine.add(job)
  }
  return jobs.filter((job) => mine.has(job))
}
