import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { visitOf, visitSchema, type HistoryEntry, type HistoryIndex } from '../chain/history.ts'
import { marksOf } from '../chain/vehicle-marks.ts'
import { MANIFEST_BOUNDS, readJsonText, RECORD_BOUNDS } from '../files/bounded-json.ts'
import { statOf } from '../files/stat-of.ts'
import { sha256 } from '../maths/sha256.ts'
import { isOutput } from './is-output.ts'
import { verifyOutput } from './verify-output.ts'

const MANIFEST = 'manifest.json'

/**
 * The outputs of a folder, as they stand now: read once a call, so that what a call writes itself is no part of it. Only
 * records are read; whether an output holds is looked at when a job asks for it.
 *
 * @param place  an output, or a folder of outputs
 * @returns undefined where there is no such folder
 */
export function historyIndex(place: string): HistoryIndex | undefined {
  if (!statOf(place)?.isDirectory()) return undefined
  const folders = isOutput(place)
    ? [place]
    : readdirSync(place)
        .sort()
        .map((name) => join(place, name))
        .filter(isOutput)
  const read = folders.map((folder) => ({ folder, entry: entryOf(folder) }))
  return {
    entries: read.flatMap(({ entry }) => entry ?? []),
    unreadable: read.filter(({ entry }) => entry === undefined).map(({ folder }) => basename(folder)),
  }
}

function entryOf(folder: string): HistoryEntry | undefined {
  try {
    const manifest = readJsonText(join(folder, MANIFEST), MANIFEST_BOUNDS)
    const result = visitSchema.parse(JSON.parse(readJsonText(join(folder, 'result.json'), RECORD_BOUNDS)))
    return {
      folder,
      name: basename(folder),
      sha256: sha256(manifest),
      bytes: Buffer.byteLength(manifest),
      vehicle: marksOf(result.job),
      visit: visitOf(result),
    }
  } catch {
    return undefined // a file is missing, or none of ours: named among those that cannot be read
  }
}

/** Whether an output holds as `verify` holds it, and is the one that was read. */
export async function stillHolds({ folder, sha256: digest }: HistoryEntry): Promise<boolean> {
  const { manifest, findings } = await verifyOutput(folder, {})
  return manifest === digest && !findings.some(({ severity }) => severity === 'broken')
}
