import { join } from 'node:path'
import { JobError, problem } from '../problems/problem.ts'
import { nearForms, type NearForm } from '../records/redact/near-forms.ts'
import { maskerOf, redactResult } from '../records/redact/redact-result.ts'
import type { RedactableField } from '../records/redact/fields.ts'
import { partsOfRecord } from '../records/redact/parts.ts'
import type { Result } from '../records/result.ts'
import { cmsBytes } from '../seal/cms.ts'
import { commitmentsDigest, partDigest } from '../seal/commitments.ts'
import { readSeal, sealManifest } from '../seal/seal-manifest.ts'
import { sealPdf } from '../seal/seal-pdf.ts'
import { signerFor, type Signer } from '../seal/signing-key.ts'
import type { Texts } from '../texts/messages.ts'
import { withoutOwnTexts } from '../texts/own-texts.ts'
import { say } from '../texts/say.ts'
import { sha256 } from '../maths/sha256.ts'
import { madeForCall } from './made-for-call.ts'
import { manifestJson } from './manifest.ts'
import { NO_STORE } from '../chain/measured-store.ts'
import { recordFiles } from '../chain/phases/records.ts'
import { renderOutputs } from '../chain/phases/render.ts'
import { commitmentsOf } from './seal-outputs.ts'
import type { JobOutput, PageOptions } from '../chain/run-job.ts'
import { sealedReport } from './sealed-report.ts'
import type { Redaction } from './verify-redaction.ts'
import { statOf } from '../files/stat-of.ts'
import { writeWhole } from '../files/write-whole.ts'

/** Ending of a redacted copy's folder name, so that it never stands in for its original. */
const ENDING = '.redacted'

export interface RedactSettings {
  outRoot: string
  fields: readonly RedactableField[]
  /** Words near those taken out: named, and no copy is made; taken out as well; or left. */
  near: 'ask' | 'mask' | 'keep'
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
  const { outRoot, fields, near, options, texts } = settings
  const signer = signerFor(options)
  const made = madeForCall(options, texts)
  const original = await sealedReport(folder, { ...options, made, store: NO_STORE }, texts)
  const mask = say(texts, 'report.withheld')
  const found = nearForms(original.result, redactResult(original.result, fields, { mask }), fields)
  if (near === 'ask' && found.length > 0) throw new JobError(found.map(nearForm))
  const masking = { mask, near: near === 'mask' ? found.map((each) => each.found) : [] }
  const result = redactResult(original.result, fields, masking)
  const masked = maskerOf(original.result, fields, masking)
  const files = await filesOf(original, {
    result,
    drawn: masked(original.drawn),
    events: masked(original.files.get('events.csv') as string),
    texts: withoutOwnTexts(texts, (sentence) => masked(sentence) !== sentence),
    signer,
    logo: fields.includes('shop') ? undefined : options.shop?.logo,
  })
  const redaction = redactionOf(original, { result, files, fields }, signer)
  const copyMade = { ...made, options: { ...made.options, redact: fields.join(' ') } }
  const manifest = withRedaction(
    manifestJson(result, files, { made: copyMade, verdict: result.conclusion.headline.text }),
    redaction,
  )
  files.set('manifest.json', sealManifest(manifest, signer && { signer, record: sha256('') }))
  const workOrder = result.job.work_order
  const output = placeOfCopy(outRoot, workOrder, original.result.job.work_order)
  await writeWhole(output, files)
  return { output, workOrder }
}

/**
 * Where a copy goes. A work order that holds a word taken out is masked, and then two jobs would have one name.
 * @throws JobError `copies-of-one-name`
 */
export function placeOfCopy(outRoot: string, workOrder: string, original: string): string {
  const output = join(outRoot, workOrder + ENDING)
  if (workOrder !== original && statOf(output))
    throw new JobError([problem('copies-of-one-name', { file: output }, { path: output })])
  return output
}

const nearForm = ({ field, found, where }: NearForm) =>
  problem('near-form', { file: where }, { field, found })

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
    records: recordFiles(result, events),
    inputFile: noPhotos,
    embedCaptures: false,
    logo,
    slotBytes: signer?.certified && cmsBytes(signer.certified),
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
