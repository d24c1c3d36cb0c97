import { expect, test } from 'vitest'
import { manifestSchema } from '../../src/evidence/manifest.ts'
import { MOST_REPORT_BYTES } from '../../src/evidence/most-report-bytes.ts'
import { sealOutputs } from '../../src/evidence/seal-outputs.ts'
import { checkSigners } from '../../src/evidence/verify-signers.ts'
import type { Result } from '../../src/records/result.ts'
import { sealManifest } from '../../src/seal/seal-manifest.ts'
import type { Signer } from '../../src/seal/signing-key.ts'
import { sha256 } from '../../src/maths/sha256.ts'
import { shop, stranger } from '../seal/keys.ts'

const record = (signer?: Signer, certificate?: string) =>
  JSON.stringify({
    name: 'burnline',
    ...(signer && { signing_key: signer.fingerprint }),
    ...(certificate && { certificate: { sha256: certificate } }),
  })
/** The head of a report is all that names its key. */
const pdf = (signer?: Signer) =>
  Buffer.from(
    `%PDF-1.7\n%....\n%burnline-sha256 ${'1'.repeat(64)}\n%burnline-ed25519 ${signer?.publicKey ?? '0'.repeat(64)} ${(signer ? '2' : '0').repeat(128)}\n`,
    'latin1',
  )
const manifest = (signer?: Signer) =>
  sealManifest('{\n  "a": 1\n}\n', signer && { signer, record: sha256('parts') })
const found = (of: Parameters<typeof checkSigners>[0]) => checkSigners(of).map((f) => `${f.file} ${f.code}`)

test.each([undefined, shop])('record, report and manifest of one signer agree', (signer) => {
  expect(found({ program: record(signer), pdf: pdf(signer), manifest: manifest(signer) })).toEqual([])
})

test.each<[string, Parameters<typeof checkSigners>[0], string[]]>([
  [
    'the manifest’s signature taken off',
    { program: record(shop), pdf: pdf(shop), manifest: manifest() },
    ['manifest.json not-signed-as-named'],
  ],
  [
    'the report’s signature taken off',
    { program: record(shop), pdf: pdf(), manifest: manifest(shop) },
    ['report.pdf not-signed-as-named'],
  ],
  [
    'both taken off',
    { program: record(shop), pdf: pdf(), manifest: manifest() },
    ['manifest.json not-signed-as-named', 'report.pdf not-signed-as-named'],
  ],
  [
    'a report sealed by another',
    { program: record(shop), pdf: pdf(stranger), manifest: manifest(shop) },
    ['report.pdf signed-by-another'],
  ],
  [
    'a manifest sealed by another',
    { program: record(shop), pdf: pdf(shop), manifest: manifest(stranger) },
    ['manifest.json signed-by-another'],
  ],
  [
    'signed although the record names nobody',
    { program: record(), pdf: pdf(shop), manifest: manifest(shop) },
    ['manifest.json signed-not-named', 'report.pdf signed-not-named'],
  ],
  [
    'the signature readers show taken off',
    { program: record(shop, 'a'.repeat(64)), pdf: pdf(shop), manifest: manifest(shop) },
    ['report.pdf not-certified-as-named'],
  ],
])('%s', (_, of, codes) => expect(found(of)).toEqual(codes))

test.each(['../x', 'a/../../x', '/etc/x', 'a\\b', 'x\u001b[2K', 'x\ny', 'x\u009b'])(
  'a manifest that lists %j is none: no name leads out of the folder or steers a terminal',
  (file) => {
    const listed = { file, sha256: '0', bytes: 1 }
    const fields = {
      format: 1,
      program: { name: 'burnline', version: '1' },
      work_order: 'A',
      verdict: '',
      made_with: { program: '', templates: {}, options: {} },
      inputs: [],
      limits: [],
    }
    expect(manifestSchema.safeParse({ ...fields, outputs: [listed] }).success).toBe(false)
    expect(
      manifestSchema.safeParse({ ...fields, outputs: [{ ...listed, file: 'a..b/c d.csv' }] }).success,
    ).toBe(true)
  },
)

test('a report larger than `verify` reads is not made', () => {
  const files = new Map([['report.pdf', new Uint8Array(MOST_REPORT_BYTES + 1)]])
  const made = { program: '', templates: {}, options: {} }
  expect(() => sealOutputs({} as Result, files, { made, verdict: '', signer: undefined })).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ code: 'report-too-large' })] }),
  )
})
