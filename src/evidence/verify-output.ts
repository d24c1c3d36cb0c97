import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { z } from 'zod'
import { embeddedFiles, type EmbeddedFile, type Wanted } from '../seal/embedded-files.ts'
import { PdfFile } from '../seal/pdf-file.ts'
import { broken, type SealFinding } from '../seal/finding.ts'
import { checkManifestSeal } from '../seal/seal-manifest.ts'
import { checkPdfSeal } from '../seal/seal-pdf.ts'
import { checkSigners } from './verify-signers.ts'
import { digestFile } from '../files/digest-file.ts'
import { sha256 } from '../maths/sha256.ts'
import { isOutput } from './is-output.ts'
import { MOST_REPORT_BYTES } from './most-report-bytes.ts'
import { manifestSchema, type Manifest } from './manifest.ts'
import { statOf } from '../files/stat-of.ts'
import { checkRedaction } from './verify-redaction.ts'
import { isWithin, MANIFEST_BOUNDS, readJsonText } from '../files/bounded-json.ts'
import { readRegularSync } from '../files/regular-file.ts'

export interface VerifySettings {
  /** The shop's public key (hex), known from elsewhere. */
  publicKey?: string
  /** Manifest of the original, for redacted copies. */
  original?: string
}

/** What a check of one output folder or report found. */
export interface Verified {
  path: string
  workOrder: string | undefined
  /** SHA-256 of manifest.json, where there is one. */ manifest: string | undefined
  findings: readonly SealFinding[]
}

const MANIFEST = 'manifest.json'
const REPORT = 'report.pdf'
/** Bytes that are hashed of one output at most: many times the largest. A file of nothing but holes takes no room and all day. */
const MOST_HASHED_BYTES = 8 * 2 ** 30
const inputsSchema = z.array(z.object({ file: z.string(), sha256: z.string(), bytes: z.number() }))

/** Checks an output folder, or a report alone. A report that stands beside a manifest is checked alone as well: name its folder for more. */
export async function verifyOutput(path: string, settings: VerifySettings): Promise<Verified> {
  const stat = statOf(path)
  if (stat?.isDirectory()) return verifyFolder(path, settings)
  if (!stat)
    return { path, workOrder: undefined, manifest: undefined, findings: [broken('missing', basename(path))] }
  return { path, workOrder: undefined, manifest: undefined, findings: await verifyReport(path, settings) }
}

/** A report alone: its own seal, and its embedded files against the list of inputs it carries. */
async function verifyReport(path: string, { publicKey }: VerifySettings): Promise<SealFinding[]> {
  const file = basename(path)
  const pdf = readWhole(path, MOST_REPORT_BYTES)
  if (typeof pdf === 'string') return [broken(pdf, file)]
  const sealed = checkPdfSeal(pdf, file, publicKey)
  if (sealed.some((f) => f.code === 'not-a-pdf')) return sealed
  const files = await embeddedOrNothing(pdf)
  if (!files) return [...sealed, broken('embedded-unreadable', file)]
  return [...sealed, ...checkEmbedded(files, file), ...checkSigners({ program: programIn(files), pdf })]
}

/** A regular file's bytes, or why it is not read: waiting on a pipe, or filling the memory, would answer nobody. */
function readWhole(path: string, mostBytes: number): Uint8Array | 'not-a-file' | 'too-large' {
  const stat = statOf(path)
  if (!stat?.isFile()) return 'not-a-file'
  return stat.size > mostBytes ? 'too-large' : readRegularSync(path, mostBytes)
}

async function verifyFolder(folder: string, settings: VerifySettings): Promise<Verified> {
  const found = (findings: readonly SealFinding[], manifest?: Manifest, digest?: string): Verified => ({
    path: folder,
    workOrder: manifest?.work_order,
    manifest: digest,
    findings,
  })
  const bytes = readWhole(join(folder, MANIFEST), MANIFEST_BOUNDS.bytes)
  if (bytes === 'not-a-file') return found([broken('no-manifest', MANIFEST)])
  if (bytes === 'too-large' || !isWithin(bytes, MANIFEST_BOUNDS))
    return found([broken('too-large', MANIFEST)])
  const text = Buffer.from(bytes).toString('utf8')
  const manifest = parseManifest(text)
  if (!manifest) return found([broken('not-a-manifest', MANIFEST)], undefined, sha256(text))
  // Bytes that are no UTF-8 read as another character; the digest below is of the text, so they are looked for first.
  const asStored = sha256(bytes)
  if (asStored !== sha256(text)) return found([broken('manifest-form', MANIFEST)], manifest, asStored)
  const findings = [
    ...checkManifestSeal(text, MANIFEST, settings.publicKey),
    ...(await checkFiles(folder, manifest)),
    ...(await reportOf(folder, { manifest, text }, settings)),
    ...(await checkRedaction(folder, text, settings)),
  ]
  return found(findings, manifest, asStored)
}

function readOrNothing(path: string): string | undefined {
  try {
    return readJsonText(path, MANIFEST_BOUNDS)
  } catch {
    return undefined // the caller's finding names the file
  }
}

function parseManifest(text: string): Manifest | undefined {
  try {
    return manifestSchema.safeParse(JSON.parse(text)).data
  } catch {
    return undefined // no JSON: the caller's finding
  }
}

/** Files that are missing, differ, or are not listed. */
async function checkFiles(folder: string, { outputs }: Manifest): Promise<SealFinding[]> {
  const there = filesIn(folder)
  const listed = new Set(outputs.map(({ file }) => file))
  const findings: SealFinding[] = [...there]
    .filter((file) => !listed.has(file) && file !== MANIFEST)
    .map((file) => broken('extra', file))
  let left = MOST_HASHED_BYTES
  for (const { file, sha256: digest, bytes } of outputs) {
    left -= bytes
    if (!there.has(file)) findings.push(broken('missing', file))
    else if (left < 0) findings.push(broken('too-large', file))
    else if (statOf(join(folder, file))?.size !== bytes || (await digestOf(join(folder, file))) !== digest)
      findings.push(broken('changed', file))
  }
  return findings
}

async function digestOf(path: string): Promise<string | undefined> {
  try {
    return (await digestFile(path)).sha256
  } catch {
    return undefined // cannot be read: counts as changed
  }
}

/** Everything in a folder that is no folder, links too, with forward slashes. */
const filesIn = (folder: string): Set<string> =>
  new Set(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => !entry.isDirectory())
      .map((entry) =>
        join(entry.parentPath, entry.name).slice(folder.length).split('\\').join('/').replace(/^\/+/, ''),
      ),
  )

async function reportOf(
  folder: string,
  { manifest, text }: { manifest: Manifest; text: string },
  { publicKey }: VerifySettings,
): Promise<SealFinding[]> {
  if (!manifest.outputs.some(({ file }) => file === REPORT)) return []
  const pdf = readWhole(join(folder, REPORT), MOST_REPORT_BYTES)
  if (typeof pdf === 'string') return pdf === 'too-large' ? [broken(pdf, REPORT)] : [] // missing: found with the files
  const sealed = checkPdfSeal(pdf, REPORT, publicKey)
  const files = await embeddedOrNothing(pdf)
  if (!files) return [...sealed, broken('embedded-unreadable', REPORT)]
  return [
    ...sealed,
    ...checkEmbedded(files, REPORT, manifest),
    ...checkSigners({ program: programIn(files), pdf, manifest: text }),
  ]
}

/**
 * The files embedded in a report: records as the manifest lists them, captures as the list of inputs names them, and
 * that list equal to the manifest's.
 */
function checkEmbedded(files: Embedded, report: string, manifest?: Manifest): SealFinding[] {
  const inputs = inputsOf(files.get('inputs.json')?.data?.toString())
  if (!inputs) return [broken('embedded-missing', report, { file: 'inputs.json' })]
  const records = new Map(
    manifest?.outputs
      .filter(({ file }) => /^[^/]+\.(csv|json)$/.test(file))
      .map(({ file, sha256: digest }) => [file, digest]),
  )
  const wanted = new Map([...inputs.map((i) => [i.file, i.sha256] as const), ...records])
  const findings: SealFinding[] = []
  for (const [file, { sha256: found }] of files) {
    if (file === 'inputs.json') continue
    const digest = wanted.get(file)
    if (digest !== undefined && found !== digest) findings.push(broken('embedded-changed', report, { file }))
    if (digest === undefined && (manifest !== undefined || !OWN_RECORDS.includes(file)))
      findings.push(broken('embedded-extra', report, { file }))
  }
  for (const file of manifest ? records.keys() : OWN_RECORDS)
    if (!files.has(file)) findings.push(broken('embedded-missing', report, { file }))
  const said = inputsOf(files.get(RECORD)?.values.get('inputs'))
  const lists = [said, ...(manifest ? [manifest.inputs] : [])]
  if (lists.some((list) => JSON.stringify(list) !== JSON.stringify(inputs)))
    findings.push(broken('inputs-differ', report))
  return findings
}

type Embedded = ReadonlyMap<string, EmbeddedFile>
const RECORD = 'result.json'
const WANTED = new Map<string, Wanted>([
  ['inputs.json', 'all'],
  [RECORD, ['program', 'inputs']],
])
const programIn = (files: Embedded): string | undefined => files.get(RECORD)?.values.get('program')
const OWN_RECORDS: readonly string[] = [RECORD, 'cylinders.csv', 'events.csv', 'tests.csv']

async function embeddedOrNothing(pdf: Uint8Array): Promise<Embedded | undefined> {
  try {
    return await embeddedFiles(new PdfFile(pdf), WANTED)
  } catch {
    return undefined // not written by this program, or damaged: the caller's finding
  }
}

/** Most inputs a list may name: job.yaml has no room for more. */
const MOST_INPUTS = 2 ** 13

function inputsOf(text: string | undefined): z.infer<typeof inputsSchema> | undefined {
  if (text === undefined) return undefined
  try {
    const read = JSON.parse(text) as unknown
    return Array.isArray(read) && read.length <= MOST_INPUTS ? inputsSchema.safeParse(read).data : undefined
  } catch {
    return undefined // no JSON: the caller's finding
  }
}

/** The list of an output's files as `sha256sum -c` takes it, its manifest not among them. */
export function sumsOf(folder: string): string | undefined {
  const text = readOrNothing(join(folder, MANIFEST))
  return text === undefined
    ? undefined
    : parseManifest(text)
        ?.outputs.map(({ file, sha256: digest }) => `${digest}  ${file}\n`)
        .join('')
}

/**
 * Folders of outputs: a folder that holds anything of an output stands for itself, any other for those of its folders
 * that do. One whose manifest was taken away is among them, so that it shows.
 */
export function outputFolders(path: string): string[] {
  if (!statOf(path)?.isDirectory() || isOutput(path)) return [path]
  const inside = readdirSync(path)
    .sort()
    .map((name) => join(path, name))
    .filter(isOutput)
  return inside.length > 0 ? inside : [path]
}
