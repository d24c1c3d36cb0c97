import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

/** Bytes of all files below a folder, as stored; 0 where it cannot be read: the job's own reader names the reason. */
export function bytesIn(folder: string): number {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true }).reduce(
      (sum, entry) => sum + (entry.isDirectory() ? 0 : statSync(join(entry.parentPath, entry.name)).size),
      0,
    )
  } catch {
    return 0
  }
}
