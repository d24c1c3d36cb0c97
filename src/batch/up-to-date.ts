import { realpathSync } from 'node:fs'
import { join, resolve, sep } from 'node:path'
import type { Limits } from '../limits/limits.ts'
import { LOG_FILE } from '../job/own-files.ts'
import { digestFile } from '../files/digest-file.ts'
import { sha256 } from '../maths/sha256.ts'
import { verifyOutput } from '../evidence/verify-output.ts'
import type { MadeWith } from '../evidence/made-with.ts'
import { manifestSchema, type Manifest } from '../evidence/manifest.ts'
import { statOf } from '../files/stat-of.ts'
import { MANIFEST_BOUNDS, readJsonText } from '../files/bounded-json.ts'

const MANIFEST = 'manifest.json'

/** One reason why a job is done again. Texts: `why.<code>`. */
export type Why =
  | { code: 'new' | 'forced' | 'program'; args: Record<string, never> }
  | { code: 'input' | 'output' | 'template'; args: { file: string } }
  | { code: 'limit'; args: { limit: string; from: string; to: string } }
  | { code: 'option'; args: { option: string; from: string; to: string } }

/** Whether an output stands for these inputs, made by this program with these templates and options. */
export type Standing =
  | { state: 'current'; workOrder: string; verdict: string; output: string; manifest: string }
  | { state: 'due'; why: readonly Why[] }

export interface Wanted {
  outRoot: string
  made: MadeWith
  limits: Limits
  /** The shop's public key (hex), where this call signs. */
  publicKey?: string | undefined
  /** Name every change; otherwise the first that shows ends the search. */
  all: boolean
}

/**
 * Compares a job with the manifest of its output. Inputs and outputs are told by their bytes, hashed anew each time,
 * never by a time stamp; the output has to hold as `verify` holds it, by the shop's key where it signs.
 *
 * @param folder     job folder
 * @param workOrder  its work order as surveyed
 */
export async function standingOf(
  folder: string,
  workOrder: string | undefined,
  wanted: Wanted,
): Promise<Standing> {
  const output = workOrder === undefined ? undefined : join(wanted.outRoot, workOrder)
  const read = output === undefined ? undefined : readManifest(output)
  if (output === undefined || read === undefined) return due({ code: 'new', args: {} })
  const { manifest, sha256: digest } = read
  const why = changedMaking(manifest, wanted)
  if (why.length === 0 || wanted.all)
    why.push(...(await changedOutputs(output, { manifest: digest, publicKey: wanted.publicKey })))
  if (why.length === 0 || wanted.all) why.push(...(await changedInputs(resolve(folder), manifest)))
  return why.length > 0
    ? due(...why)
    : {
        state: 'current',
        workOrder: manifest.work_order,
        verdict: manifest.verdict,
        output,
        manifest: digest,
      }
}

const due = (...why: Why[]): Standing => ({ state: 'due', why })

function readManifest(output: string): { manifest: Manifest; sha256: string } | undefined {
  try {
    const text = readJsonText(join(output, MANIFEST), MANIFEST_BOUNDS)
    return { manifest: manifestSchema.parse(JSON.parse(text)), sha256: sha256(text) }
  } catch {
    return undefined // no output, or not one of this program: the job is due, and writing it says what is in the way
  }
}

function changedMaking({ made_with: was, limits: limitsWere }: Manifest, { made, limits }: Wanted): Why[] {
  const templates = differing(was.templates, made.templates)
  const changedLimits = templates.includes('limits.yaml') ? differingLimits(limitsWere, limits) : []
  return [
    ...(was.program === made.program ? [] : [{ code: 'program', args: {} } as const]),
    ...changedLimits,
    ...templates
      .filter((file) => file !== 'limits.yaml' || changedLimits.length === 0)
      .map((file): Why => ({ code: 'template', args: { file } })),
    ...differing(was.options, made.options).map((option): Why => ({
      code: 'option',
      args: { option, from: String(was.options[option] ?? ''), to: String(made.options[option] ?? '') },
    })),
  ]
}

/** Names whose values differ between two records, or that only one of them has. */
const differing = <T>(a: Readonly<Record<string, T>>, b: Readonly<Record<string, T>>): string[] =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].sort().filter((key) => a[key] !== b[key])

function differingLimits(were: Manifest['limits'], limits: Limits): Why[] {
  const before = Object.fromEntries(were.map((l) => [l.key, l.value]))
  const now = Object.fromEntries(Object.entries(limits).map(([key, l]) => [key, l.value]))
  return differing(before, now).map((limit) => ({
    code: 'limit',
    args: { limit, from: String(before[limit] ?? ''), to: String(now[limit] ?? '') },
  }))
}

/** Files of an output that do not hold: changed, missing, not listed, or sealed by somebody else. */
async function changedOutputs(
  output: string,
  { manifest, publicKey }: { manifest: string; publicKey: string | undefined },
): Promise<Why[]> {
  const checked = await verifyOutput(output, publicKey === undefined ? {} : { publicKey })
  const files = checked.findings.filter(({ severity }) => severity === 'broken').map(({ file }) => file)
  if (checked.manifest !== manifest) files.push(MANIFEST) // changed since it was read
  return [...new Set(files)].map((file) => ({ code: 'output', args: { file } }))
}

/** Inputs whose bytes differ, that are gone or lead out of the folder, and a test log that was not there before. */
async function changedInputs(folder: string, { inputs }: Manifest): Promise<Why[]> {
  const real = realOf(folder)
  const changed = await Promise.all(
    inputs.map(async ({ file, sha256: digest, bytes }) => {
      const path = realOf(join(folder, file))
      const same =
        real !== undefined &&
        path?.startsWith(real + sep) &&
        sizeOf(path) === bytes &&
        (await digestOf(path, bytes)) === digest
      return same ? [] : [file]
    }),
  )
  const newLog = !inputs.some(({ file }) => file === LOG_FILE) && sizeOf(join(folder, LOG_FILE)) !== undefined
  return [...changed.flat(), ...(newLog ? [LOG_FILE] : [])].map((file) => ({ code: 'input', args: { file } }))
}

const sizeOf = (path: string): number | undefined => statOf(path)?.size

function realOf(path: string): string | undefined {
  try {
    return realpathSync.native(path)
  } catch {
    return undefined // gone or closed: it counts as changed, and reading it says why
  }
}

async function digestOf(path: string, bytes: number): Promise<string | undefined> {
  try {
    return (await digestFile(path, bytes)).sha256
  } catch {
    return undefined // as above
  }
}
