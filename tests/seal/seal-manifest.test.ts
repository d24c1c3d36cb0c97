import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { checkManifestSeal, readSeal, sealedText, sealManifest } from '../../src/seal/seal-manifest.ts'
import { sha256 } from '../../src/maths/sha256.ts'
import { pem, shop, stranger } from './keys.ts'

const text = `${JSON.stringify({ format: 1, work_order: '24-0713 ü', outputs: [{ file: 'a', sha256: '0' }] }, null, 2)}\n`
const record = sha256('parts')
const codes = (sealed: string, key?: string) =>
  checkManifestSeal(sealed, 'manifest.json', key).map((f) => `${f.severity} ${f.code}`)

describe.each([
  ['unsigned', undefined],
  ['signed', { signer: shop, record }],
] as const)('a manifest %s', (_, signing) => {
  const sealed = sealManifest(text, signing)

  test('holds, and gives its text back', () => {
    expect(codes(sealed)).toEqual([signing ? 'note signed' : 'note unsigned'])
    expect(readSeal(sealed)!.body).toBe(text)
    expect(JSON.parse(sealed)).toMatchObject(JSON.parse(text) as object)
  })

  test('no byte can be changed to any of eight others, left out or put in without a finding', () => {
    const bytes = Buffer.from(sealed)
    const quiet: string[] = []
    const look = (what: string, changed: Buffer) => {
      const read = changed.toString('utf8')
      // A file that is not UTF-8 differs from its text: that is found before the seal is looked at.
      if (!Buffer.from(read).equals(changed)) return
      if (!codes(read).some((code) => code.startsWith('broken'))) quiet.push(what)
    }
    for (let at = 0; at < bytes.length; at++) {
      for (let bit = 0; bit < 8; bit++) {
        const changed = Buffer.from(bytes)
        changed[at]! ^= 1 << bit
        look(`bit ${bit} of ${at}`, changed)
      }
      look(`without ${at}`, Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + 1)]))
      look(`space at ${at}`, Buffer.concat([bytes.subarray(0, at), Buffer.from(' '), bytes.subarray(at)]))
    }
    expect(quiet).toEqual([])
  })
})

test("sealed anew by a stranger it holds by itself, and not under the shop's key", () => {
  const forged = sealManifest(text.replace('24', '25'), { signer: stranger, record })
  expect(codes(forged)).toEqual(['note signed'])
  expect(codes(forged, shop.publicKey)).toEqual(['broken other-key'])
  expect(codes(sealManifest(text), shop.publicKey)).toEqual(['broken other-key'])
})

test('a seal taken from another manifest does not hold', () => {
  const other = sealManifest(text.replace('24', '25'), { signer: shop, record })
  const { body } = readSeal(sealManifest(text, { signer: shop, record }))!
  expect(codes(body.replace(/\n\}\n$/, '') + other.slice(other.lastIndexOf(',\n  "seal"')))).toEqual([
    'broken manifest-changed',
  ])
})

test('a seal as it was before digests were of canonical JSON still holds, and no byte of it can differ', () => {
  const seal = { sha256: sha256(text), record, public_key: shop.publicKey }
  const signature = shop.sign(sealedText(seal))
  const member = JSON.stringify({ ...seal, signature }, null, 2).replaceAll('\n', '\n  ')
  const sealed = `${text.slice(0, -3)},\n  "seal": ${member}\n}\n`
  expect(codes(sealed, shop.publicKey)).toEqual(['note signed'])
  expect(codes(sealed.replace('24', '25'), shop.publicKey)).toEqual(['broken manifest-changed'])
  expect(codes(sealed.replace('"format": 1', '"format":  1'), shop.publicKey)).toEqual([
    'broken manifest-changed',
  ])
})

const openssl = spawnSync('openssl', ['version'], { encoding: 'utf8' })
const hasOpenssl = openssl.status === 0 && /^OpenSSL [3-9]/.test(openssl.stdout)
if (!hasOpenssl) console.warn('skipped: openssl 3 not present')
test.skipIf(!hasOpenssl)('OpenSSL, which is not ours, agrees with the signature', () => {
  const folder = mkdtempSync(join(tmpdir(), 'burnline-seal-'))
  try {
    const { seal } = readSeal(sealManifest(text, { signer: shop, record }))!
    const write = (name: string, bytes: string | Buffer) => {
      writeFileSync(join(folder, name), bytes)
      return join(folder, name)
    }
    const args = [
      'pkeyutl',
      '-verify',
      '-rawin',
      '-inkey',
      write('key', pem('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60')),
      '-sigfile',
      write('sig', Buffer.from(seal.signature!, 'hex')),
      '-in',
    ]
    expect(spawnSync('openssl', [...args, write('text', sealedText(seal))]).status).toBe(0)
    expect(
      spawnSync('openssl', [...args, write('other', sealedText({ ...seal, record: sha256('') }))]).status,
    ).not.toBe(0)
  } finally {
    rmSync(folder, { recursive: true })
  }
})
