import { JobError, problem } from '../problems/problem.ts'
import { partsOfRecord } from '../records/redact/parts.ts'
import type { Result } from '../records/result.ts'
import { commit, commitmentsDigest, type Commitment } from '../seal/commitments.ts'
import { sealManifest } from '../seal/seal-manifest.ts'
import { sealPdf } from '../seal/seal-pdf.ts'
import type { Signer } from '../seal/signing-key.ts'
import { sha256 } from '../maths/sha256.ts'
import type { MadeWith } from './made-with.ts'
import { manifestJson } from './manifest.ts'
import { MOST_REPORT_BYTES } from './most-report-bytes.ts'

type Files = ReadonlyMap<string, Uint8Array | string>

/**
 * The report with its seal, and a sealed manifest over all files; signed where the shop has a key.
 * @throws JobError `report-too-large` for a report that could not be verified any more
 */
export function sealOutputs(
  result: Result,
  files: Files,
  how: { made: MadeWith; verdict: string; signer: Signer | undefined },
): Map<string, Uint8Array | string> {
  const { signer } = how
  const { length } = files.get('report.pdf')!
  if (length > MOST_REPORT_BYTES)
    throw new JobError([
      problem(
        'report-too-large',
        { file: 'report.pdf' },
        { size: mebibytes(length), limit: mebibytes(MOST_REPORT_BYTES) },
      ),
    ])
  const sealed = new Map(files).set('report.pdf', sealPdf(files.get('report.pdf') as Uint8Array, signer))
  const signing = signer && { signer, record: commitmentsDigest(commitmentsOf(result, sealed, signer)) }
  return sealed.set('manifest.json', sealManifest(manifestJson(result, sealed, how), signing))
}

const mebibytes = (bytes: number): string => `${Math.ceil(bytes / 2 ** 20)} MiB`

/** Salted digests of all parts of a record and of the files beside it that a redacted copy can show unchanged. */
export function commitmentsOf(result: Result, files: Files, signer: Signer): Required<Commitment>[] {
  const salted = sha256(files.get('result.json')!)
  return commit([...partsOfRecord(result), ...filesShown(files)], (path) =>
    signer.secret(`part\n${salted}\n${path}`),
  )
}

/** CSV tables, charts and the claim text as parts: the value is the file's digest. */
const filesShown = (files: Files): { path: string; value: string }[] =>
  [...files]
    .filter(([file]) => /\.(csv|svg|txt|v[gl]\.json)$/.test(file))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, bytes]) => ({ path: `file/${file}`, value: sha256(bytes) }))
