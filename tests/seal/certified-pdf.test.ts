import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { certificateOf } from '../../src/chain/run-job.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { renderReport } from '../../src/report/render-report.ts'
import { pemOf } from '../../src/seal/certificate.ts'
import { cmsBytes } from '../../src/seal/cms.ts'
import { checkPdfSeal, sealPdf } from '../../src/seal/seal-pdf.ts'
import { findSlot, outside } from '../../src/seal/signature-slot.ts'
import { signerOf, type Signer } from '../../src/seal/signing-key.ts'
import { breaches } from '../support/conformance/conformance.ts'
import { allText, openPdf } from '../support/read-pdf.ts'
import { sampleJob, sampleTexts } from '../support/sample-result.ts'
import { certifiedPem, shop, stranger } from './keys.ts'

const NAME = 'Kettlebrook Demo Garage'
let signer: Signer
let blank: Uint8Array
let sealed: Uint8Array
const folder = mkdtempSync(join(tmpdir(), 'burnline-signature-'))
beforeAll(async () => {
  signer = signerOf(certifiedPem(NAME))
  const { certificate, key } = signer.certified!
  const { result, traces } = sampleJob({ cylinders: 4, bare: true })
  const program = {
    ...result.program,
    signing_key: signer.fingerprint,
    certificate: { sha256: certificate.fingerprint, name: NAME, signed_at: '2026-03-05' },
  }
  blank = await renderReport({
    result: { ...result, program },
    traces,
    texts: sampleTexts(),
    attachments: [],
    photos: new Map(),
    page: 'A4',
    slotBytes: cmsBytes({ certificate, key }),
  })
  sealed = sealPdf(blank, signer)
})
afterAll(() => rmSync(folder, { recursive: true }))

const codes = (pdf: Uint8Array, key?: string) =>
  checkPdfSeal(pdf, 'report.pdf', key).map((f) => `${f.severity} ${f.code}`)
const file = (name: string, bytes: Uint8Array | string) => {
  writeFileSync(join(folder, name), bytes)
  return join(folder, name)
}

test('a report carries both signatures, the same bytes every time', () => {
  expect(codes(sealed)).toEqual(['note signed', 'note certified'])
  expect(codes(sealed, signer.publicKey)).toEqual(['note signed', 'note certified'])
  expect(codes(sealed, stranger.publicKey)).toEqual(['broken other-key', 'note certified'])
  expect(Buffer.from(sealPdf(blank, signer)).equals(sealed)).toBe(true)
})

test('it still keeps to both standards', () => {
  expect(breaches(sealed)).toEqual([])
})

test.each<[string, string, string, RegExp]>([
  ['a field without words', '/TU (', '/TX (', /TU/],
  ['a field that is not printed', '/F 132', '/F 130', /6\.3\.2/],
  ['no appearance', '/AP <<', '/AX <<', /6\.3\.3/],
  ['a field out of the tree', '/S /Form', '/S /Span', /7\.18\.4/],
  ['another range of bytes', '/ByteRange [0 ', '/ByteRange [1 ', /6\.4\.3/],
])('the check finds %s', (_, from, to, expected) => {
  const text = Buffer.from(sealed).toString('latin1')
  expect(text).toContain(from)
  expect(breaches(Buffer.from(text.replace(from, to), 'latin1')).join('\n')).toMatch(expected)
})

test('a bit turned anywhere in the slot or around it is found', () => {
  const slot = findSlot(sealed)!
  const random = makeRandom(20261129)
  const places = [
    ...Array.from({ length: 400 }, (_, i) => slot.from - 300 + 12 * i),
    ...Array.from({ length: 100 }, () => Math.floor(random.uniform() * sealed.length)),
  ]
  const quiet = places.filter((at) => {
    const copy = Uint8Array.from(sealed)
    copy[at]! ^= 1 << Math.floor(random.uniform() * 8)
    return !codes(copy).some((code) => code.startsWith('broken'))
  })
  expect(quiet).toEqual([])
})

test('a slot signed by a certificate of another shop is found', () => {
  const theirs = signerOf(certifiedPem('Kettlebrook Other Shop_'))
  const mixed = { ...stranger, certified: theirs.certified! }
  expect(codes(sealPdf(blank, mixed))).toEqual(['note signed', 'broken certificate-other-key'])
  expect(() => sealPdf(blank, shop)).toThrow('no certificate')
})

test('the date shown is the one stated for the call, else the day the job was closed, else none is signed', () => {
  const [signedAt, closed] = ['2026-03-05', '2026-03-04']
  const dateOf = (stated: { signedAt: string | undefined; closed: string | undefined }) =>
    certificateOf(signer, stated)?.signed_at
  expect(dateOf({ signedAt, closed })).toBe(signedAt)
  expect(dateOf({ signedAt: undefined, closed })).toBe(closed)
  expect(() => dateOf({ signedAt: undefined, closed: undefined })).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ code: 'no-signing-date' })] }),
  )
  expect(certificateOf(shop, { signedAt, closed })).toBeUndefined() // a key file without the second key
})

test('the report explains a reader that does not know the issuer', async () => {
  expect((await allText(await openPdf(sealed))).replaceAll(/\s+/g, ' ')).toContain(
    'that the issuer is unknown',
  )
})

const has = (tool: string) => spawnSync(tool, ['-v']).error === undefined

describe('tools that are not ours', () => {
  test.skipIf(!has('pdfsig'))('pdfsig shows the signature as valid over the whole document', () => {
    const said = execFileSync('pdfsig', ['-nocert', file('report.pdf', sealed)], { encoding: 'utf8' })
    expect(said).toContain(`Signer Certificate Common Name: ${NAME}`)
    expect(said).toContain('Signature Type: ETSI.CAdES.detached')
    expect(said).toContain('Total document signed')
    expect(said).toContain('Signature Validation: Signature is Valid.')
    expect(said).toContain('Mar 05 2026')
    const changed = Uint8Array.from(sealed)
    changed[2000]! ^= 1
    const other = spawnSync('pdfsig', ['-nocert', file('changed.pdf', changed)], { encoding: 'utf8' }).stdout
    expect(other).toContain('Digest Mismatch')
  })

  test.skipIf(!has('openssl'))('openssl holds the signature against the bytes outside the slot', () => {
    const slot = findSlot(sealed)!
    const cms = Buffer.from(Buffer.from(sealed.subarray(slot.from + 1, slot.to - 1)).toString(), 'hex')
    const call = (content: string) =>
      spawnSync(
        'openssl',
        [
          'cms',
          '-verify',
          '-cades',
          '-binary',
          '-inform',
          'DER',
          '-in',
          file('s.der', cms),
          '-content',
          content,
        ].concat([
          '-CAfile',
          file('shop.crt', pemOf(signer.certified!.certificate.der)),
          '-out',
          join(folder, 'out'),
        ]),
        { encoding: 'utf8' },
      )
    const [before, behind] = outside(sealed, slot)
    expect(call(file('content', Buffer.concat([before, behind]))).stderr).toMatch(/verification successful/i)
    expect(call(file('other', Buffer.concat([before, behind.subarray(1)]))).status).not.toBe(0)
  })
})
