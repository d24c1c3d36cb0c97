import { visible } from '../../problems/control-characters.ts'
import { tellLine } from '../print-line.ts'
import { generateKeyPairSync } from 'node:crypto'
import { linkSync, rmSync, writeFileSync } from 'node:fs'
import type { CommandModule } from 'yargs'
import { say } from '../../texts/say.ts'
import { lineTexts } from '../terminal.ts'
import { EXIT } from '../exit-codes.ts'

/** Only the owner may read the private key. */
const PRIVATE_MODE = 0o600
const PUBLIC_MODE = 0o644
/** Length of the second key, bits: as strong as the first (NIST SP 800-57, table 2: 3072 stands for 128 bits). */
const RSA_BITS = 3072
const VALID_YEARS = 20

/**
 * `burnline key <file>`: makes a shop's keys once: the private ones in the file, the public one of the seal in
 * `<file>.pub`, the certificate of the other in `<file>.crt`. Never overwrites.
 */
export const keyCommand: CommandModule<object, { file: string; name: string | undefined }> = {
  command: 'key <file>',
  describe:
    'Make a key to sign reports with: <file> is private, <file>.pub and <file>.crt are for everybody.',
  builder: (y) =>
    y
      .positional('file', {
        type: 'string',
        demandOption: true,
        describe: 'File of the private key; must not exist',
      })
      .option('name', { type: 'string', describe: 'Name that readers of PDF files show as the signer' })
      .example('$0 key shop.key --name "Kettlebrook Demo Garage"', 'keys of an invented shop') as never,
  handler: async ({ file, name }) => {
    const texts = lineTexts()
    const { publicKeyOf, fingerprintOf } = await import('../../seal/signing-key.ts')
    const { makeCertificate, pemOf, readCertificate } = await import('../../seal/certificate.ts')
    const privateKeyEncoding = { type: 'pkcs8', format: 'pem' } as const
    const publicKeyEncoding = { type: 'spki', format: 'pem' } as const
    const seal = generateKeyPairSync('ed25519', { privateKeyEncoding, publicKeyEncoding })
    const second = generateKeyPairSync('rsa', {
      modulusLength: RSA_BITS,
      privateKeyEncoding,
      publicKeyEncoding,
    })
    const fingerprint = fingerprintOf(publicKeyOf(seal.publicKey))
    const from = new Date()
    const until = new Date(from)
    until.setUTCFullYear(from.getUTCFullYear() + VALID_YEARS)
    const signer = name?.trim() || say(texts, 'key.unnamed')
    const der = makeCertificate(second.privateKey, {
      name: signer,
      sealFingerprint: fingerprint,
      from,
      until,
    })
    const made: string[] = []
    try {
      for (const [path, text, mode] of [
        [file, seal.privateKey + second.privateKey + pemOf(der), PRIVATE_MODE],
        [`${file}.pub`, seal.publicKey, PUBLIC_MODE],
        [`${file}.crt`, pemOf(der), PUBLIC_MODE],
      ] as const) {
        writeWholeFile(path, text, mode)
        made.push(path)
      }
    } catch (cause) {
      for (const path of made) rmSync(path, { force: true })
      const { code, dest, path } = cause as NodeJS.ErrnoException & { dest?: string }
      const why = { path: dest ?? path ?? file, why: code ?? String(cause) }
      tellLine(`burnline: ${say(texts, code === 'EEXIST' ? 'key.exists' : 'key.cannot-write', why)}`)
      process.exitCode = EXIT.cannotWrite
      return
    }
    const certificate = readCertificate(der).fingerprint
    process.stdout.write(`${say(texts, 'key.made', { file: visible(file), fingerprint, certificate })}\n`)
  },
}

/** Writes beside the place and links into it: the file is there whole or not at all, and never replaces another. */
function writeWholeFile(path: string, text: string, mode: number): void {
  const aside = `${path}.${process.pid}`
  rmSync(aside, { force: true }) // of a killed call that had the same number
  try {
    writeFileSync(aside, text, { flag: 'wx', mode, flush: true })
    linkSync(aside, path)
  } finally {
    rmSync(aside, { force: true })
  }
}
