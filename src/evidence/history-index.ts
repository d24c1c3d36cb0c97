import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { visitOf, visitSchema, type Hold, type HistoryEntry, type HistoryIndex } from '../chain/history.ts'
import { marksOf } from '../chain/vehicle-marks.ts'
import { MANIFEST_BOUNDS, readJsonText, RECORD_BOUNDS } from '../files/bounded-json.ts'
import { statOf } from '../files/stat-of.ts'
import { sha256 } from '../maths/sha256.ts'
import { fingerprintOf } from '../seal/signing-key.ts'
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

/**
 * Whether an earlier output holds as `verify` holds it, and is the one that was read. What a shop signs rests on nothing
 * that somebody else may have written: then only what bears the signature of the same key holds.
 *
 * @param output     sha256: of its manifest.json, where that was read before
 * @param publicKey  the key the call signs with (hex), where it signs
 */
export async function holdOf(
  { folder, sha256: digest }: { folder: string; sha256?: string },
  publicKey: string | undefined,
): Promise<Hold> {
  const { manifest, findings } = await verifyOutput(folder, {})
  if (findings.some(({ severity }) => severity === 'broken')) return 'altered'
  if (digest !== undefined && manifest !== digest) return 'altered'
  const wanted = publicKey === undefined ? undefined : fingerprintOf(publicKey)
  const isSigned = findings.some(
    ({ code, file, args }) => code === 'signed' && file === MANIFEST && args['fingerprint'] === wanted,
  )
  return wanted === undefined || isSigned ? 'holds' : 'not signed'
}
