import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fleetResultSchema, rowOfResult, rowWithoutRecord, type FleetRow } from '../fleet/fleet-row.ts'
import { JobError, problem } from '../problems/problem.ts'
import { sha256 } from '../maths/sha256.ts'
import { isOutput } from '../evidence/is-output.ts'
import { manifestSchema, type Manifest } from '../evidence/manifest.ts'
import type { SealFinding } from '../seal/finding.ts'
import { checkManifestSeal } from '../seal/seal-manifest.ts'
import { fingerprintOf } from '../seal/signing-key.ts'
import { statOf } from '../files/stat-of.ts'
import {
  isWithin,
  MANIFEST_BOUNDS,
  readJsonBytes,
  readJsonText,
  RECORD_BOUNDS,
} from '../files/bounded-json.ts'
import { regularLines } from '../files/regular-lines.ts'

/** One job for a roll-up, and where it was found, for messages. */
export interface SourcedRow {
  row: FleetRow
  from: string
}

/** How a call of `report` ended for a folder that has no record to read: failed, or reported (its output speaks for it). */
export interface ToldEnd {
  folder: string
  ended: FleetRow | 'reported'
}

const MANIFEST = 'manifest.json'
const RESULT = 'result.json'

/**
 * The jobs of a roll-up, one after the other, none kept:
 *
 * - an output folder: its record, held against its manifest
 * - a folder of output folders
 * - a file of JSON lines: what `burnline report --json` prints (for the jobs that failed), or records one a line
 *
 * @param publicKey  the shop's (hex): only what it signed counts as signed; without it any key does that the record names
 * @throws JobError for a path that is not there, and for a line that is neither
 */
export async function* fleetRows(
  paths: readonly string[],
  publicKey?: string,
): AsyncGenerator<SourcedRow | ToldEnd> {
  for (const path of paths) {
    const stat = statOf(path)
    if (!stat) throw new JobError([problem('not-a-folder', { file: path }, { path })])
    if (stat.isFile()) yield* rowsOfLines(path)
    else if (!stat.isDirectory())
      throw new JobError([
        problem('unreadable-file', { file: path }, { path, why: 'phrase.not-a-regular-file' }),
      ])
    else if (isOutput(path)) yield { row: rowOfFolder(path, publicKey), from: path }
    else
      for (const name of readdirSync(path).sort())
        if (isOutput(join(path, name)))
          yield { row: rowOfFolder(join(path, name), publicKey), from: join(path, name) }
  }
}

/** A job whose output cannot be used still has its row. */
function rowOfFolder(folder: string, publicKey: string | undefined): FleetRow {
  const text = readOrNothing(join(folder, MANIFEST))
  const manifest = text === undefined ? undefined : parseManifest(text)
  const workOrder = manifest?.work_order ?? basename(folder)
  if (text === undefined || !manifest) return rowWithoutRecord(workOrder, 'unreadable', ['manifest'])
  const seal = checkManifestSeal(text, MANIFEST)
  if (seal.some(({ code }) => code === 'manifest-changed' || code === 'signature-invalid'))
    return rowWithoutRecord(workOrder, 'altered', ['manifest'])
  try {
    const bytes = readJsonBytes(join(folder, RESULT), RECORD_BOUNDS)
    if (manifest.outputs.find(({ file }) => file === RESULT)?.sha256 !== sha256(bytes))
      return rowWithoutRecord(workOrder, 'altered', ['record'])
    const read = fleetResultSchema.safeParse(JSON.parse(bytes.toString('utf8')))
    if (!read.success) return rowWithoutRecord(workOrder, 'unreadable', ['record'])
    const named = read.data.program.signing_key
    const isTheirs = publicKey === undefined || named === fingerprintOf(publicKey)
    return { ...rowOfResult(read.data), signed: isTheirs && isSignedAsNamed(seal, named) }
  } catch {
    return rowWithoutRecord(workOrder, 'unreadable', ['record']) // missing, too large, or no JSON: said in its row
  }
}

/** The record says who signed; the manifest over it has to be signed by that key. Of the report, `verify` says more. */
const isSignedAsNamed = (seal: readonly SealFinding[], key: string | undefined): boolean =>
  key !== undefined && seal.some(({ code, args }) => code === 'signed' && args.fingerprint === key)

function readOrNothing(path: string): string | undefined {
  try {
    return readJsonText(path, MANIFEST_BOUNDS)
  } catch {
    return undefined // missing, or too large: said in the job's row
  }
}

function parseManifest(text: string): Manifest | undefined {
  try {
    return manifestSchema.safeParse(JSON.parse(text)).data
  } catch {
    return undefined // no JSON: said in the job's row
  }
}

async function* rowsOfLines(path: string): AsyncGenerator<SourcedRow | ToldEnd> {
  let number = 0
  for await (const bytes of regularLines(path, RECORD_BOUNDS.bytes)) {
    number++
    const line = bytes && isWithin(bytes, RECORD_BOUNDS) ? bytes.toString('utf8') : '...'
    if (line.trim() === '') continue
    const read = readLine(line, `${path}:${number}`)
    if (read === undefined)
      throw new JobError([
        problem(
          'wrong-value',
          { file: path, line: number },
          { key: 'line', found: line.slice(0, 60), expected: 'phrase.fleet-line' },
        ),
      ])
    if (read !== null) yield read
  }
}

/** Null for a line that is of no job: the count at the end. */
function readLine(line: string, from: string): SourcedRow | ToldEnd | null | undefined {
  const read = parsed(line) as
    { total?: unknown; state?: unknown; folder?: unknown; problems?: { code?: unknown }[] } | undefined
  if (read?.total !== undefined) return null
  if (typeof read?.folder === 'string') {
    const { folder, state, problems } = read
    if (state === 'reported') return { folder, ended: 'reported' }
    if (state === 'invalid' || state === 'skipped')
      return {
        folder,
        ended: rowWithoutRecord(
          basename(folder),
          state,
          (problems ?? []).map((p) => String(p.code)),
        ),
      }
  }
  const result = fleetResultSchema.safeParse(read)
  return result.success ? { row: rowOfResult(result.data), from } : undefined
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line)
  } catch {
    return undefined // the caller names the line
  }
}
