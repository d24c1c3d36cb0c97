import { join } from 'node:path'
import { JobError, problem } from '../problems/problem.ts'
import { cylindersCsv } from '../records/cylinders-csv.ts'
import { maskerOf, redactResult } from '../records/redact/redact-result.ts'
import type { RedactableField } from '../records/redact/fields.ts'
import { partsOfRecord } from '../records/redact/parts.ts'
import { resultJson } from '../records/result-json.ts'
import type { Result } from '../records/result.ts'
import { testsCsv } from '../records/tests-csv.ts'
import { commitmentsDigest, partDigest } from '../seal/commitments.ts'
import { readSeal, sealManifest } from '../seal/seal-manifest.ts'
import { sealPdf } from '../seal/seal-pdf.ts'
import { signerOf, type Signer } from '../seal/signing-key.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { sha256 } from '../maths/sha256.ts'
import { headline } from './job-outcome.ts'
import { madeForCall } from './made-for-call.ts'
import { manifestJson } from './manifest.ts'
import { NO_STORE } from './measured-store.ts'
import { renderOutputs } from './phases/render.ts'
import { commitmentsOf } from './phases/seal.ts'
import { runJob, type JobOutput, type PageOptions } from './run-job.ts'
import type { Redaction } from './verify-redaction.ts'
import { writeWhole } from './write-whole.ts'

/** Ending of a redacted copy's folder name, so that it never stands in the place of its original. */
const ENDING = '.redacted'

export interface RedactSettings {
  outRoot: string
  fields: readonly RedactableField[]
  /** Those the original was made with. */ options: PageOptions
  texts: Texts
}

/**
 * Reports a job anew, takes words out, and writes the copy with its own report, never with captures in it. Where the shop signs, the copy carries
 * what is needed to check the parts it shows against the original's signature.
 *
 * @param folder  absolute path of the job folder
 * @returns path of the copy and the work order
 * @throws JobError as a report does
 */
export async function redactJob(
  folder: string,
  settings: RedactSettings,
): Promise<{ output: string; workOrder: string }> {
  const { outRoot, fields, options, texts } = settings
  const signer = options.signingKeyPem === undefined ? undefined : signerOf(options.signingKeyPem)
  const made = madeForCall(options, texts.language)
  const original = await runJob(folder, { ...options, made, store: NO_STORE }, texts)
  const mask = say(texts, 'report.withheld')
  const result = redactResult(original.result, fields, mask)
  const masked = maskerOf(original.result.job, fields, mask)
  const files = await filesOf(original, {
    result,
    drawn: masked(original.drawn),
    events: masked(original.files.get('events.csv') as string),
    texts,
    signer,
    logo: fields.includes('shop') ? undefined : options.shop?.logo,
  })
  const redaction = redactionOf(original, { result, files, fields }, signer)
  const copyMade = { ...made, options: { ...made.options, redact: fields.join(' ') } }
  const manifest = withRedaction(
    manifestJson(result, files, { made: copyMade, verdict: headline(result) }),
    redaction,
  )
  files.set('manifest.json', sealManifest(manifest, signer && { signer, record: sha256('') }))
  const workOrder = result.job.work_order
  const output = join(outRoot, workOrder + ENDING)
  await writeWhole(output, files)
  return { output, workOrder }
}

interface Copy {
  result: Result
  drawn: JobOutput['drawn']
  events: string
  texts: Texts
  signer: Signer | undefined
  logo: Uint8Array | undefined
}

async function filesOf(
  { result: was }: JobOutput,
  { result, drawn, events, texts, signer, logo }: Copy,
): Promise<Map<string, Uint8Array | string>> {
  const records = new Map([
    ['result.json', resultJson(result)],
    ['cylinders.csv', cylindersCsv(result)],
    ['events.csv', events],
    ['tests.csv', testsCsv(result)],
  ])
  const noPhotos = () =>
    Promise.reject(
      new JobError([
        problem('internal-error', { file: was.job.work_order }, { what: 'a redacted copy reads no input' }),
      ]),
    )
  const files = await renderOutputs({
    result,
    drawn,
    texts,
    records,
    inputFile: noPhotos,
    embedCaptures: false,
    logo,
  })
  return files.set('report.pdf', sealPdf(files.get('report.pdf') as Uint8Array, signer))
}

/** What the copy says of its original: the salts of the parts that it shows unchanged, and only digests of the others. */
function redactionOf(
  original: JobOutput,
  copy: {
    result: Result
    files: ReadonlyMap<string, Uint8Array | string>
    fields: readonly RedactableField[]
  },
  signer: Signer | undefined,
): Redaction {
  const fields = [...copy.fields]
  if (!signer) return { fields, original: null, parts: [] }
  const shown = new Map<string, unknown>(partsOfRecord(copy.result).map(({ path, value }) => [path, value]))
  for (const [file, bytes] of copy.files) shown.set(`file/${file}`, sha256(bytes))
  const parts = commitmentsOf(original.result, original.files, signer).map(({ path, digest, salt }) =>
    partDigest({ path, value: shown.get(path) }, salt) === digest ? { path, digest, salt } : { path, digest },
  )
  const { seal } = readSeal(original.files.get('manifest.json') as string)!
  const record = commitmentsDigest(parts)
  return {
    fields,
    original: { sha256: seal.sha256, record, public_key: seal.public_key!, signature: seal.signature! },
    parts,
  }
}

const withRedaction = (manifest: string, redaction: Redaction): string =>
  `${JSON.stringify({ ...(JSON.parse(manifest) as object), redaction }, null, 2)}\n`
