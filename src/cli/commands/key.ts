import { generateKeyPairSync } from 'node:crypto'
import { writeFileSync } from 'node:fs'
import type { CommandModule } from 'yargs'
import { loadTexts } from '../../texts/load-texts.ts'
import { say } from '../../texts/say.ts'
import { EXIT } from '../exit-codes.ts'

/** Only the owner may read the private key. */
const PRIVATE_MODE = 0o600
const PUBLIC_MODE = 0o644

/** `burnline key <file>`: makes a shop's key: the private one in the file, the public one in `<file>.pub`. Never overwrites. */
export const keyCommand: CommandModule<object, { file: string }> = {
  command: 'key <file>',
  describe: 'Make a key to sign reports with: <file> is private, <file>.pub is for everybody.',
  builder: (y) =>
    y.positional('file', {
      type: 'string',
      demandOption: true,
      describe: 'File of the private key; must not exist',
    }) as never,
  handler: async ({ file }) => {
    const texts = loadTexts('en')
    const { publicKeyOf, fingerprintOf } = await import('../../seal/signing-key.ts')
    const { privateKey, publicKey } = generateKeyPairSync('ed25519', {
      privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
      publicKeyEncoding: { type: 'spki', format: 'pem' },
    })
    try {
      writeFileSync(file, privateKey, { flag: 'wx', mode: PRIVATE_MODE, flush: true })
      writeFileSync(`${file}.pub`, publicKey, { flag: 'wx', mode: PUBLIC_MODE, flush: true })
    } catch (cause) {
      const { code, path } = cause as NodeJS.ErrnoException
      process.stderr.write(
        `burnline: ${say(texts, code === 'EEXIST' ? 'key.exists' : 'key.cannot-write', { path: path ?? file, why: code ?? String(cause) })}\n`,
      )
      process.exitCode = EXIT.cannotWrite
      return
    }
    process.stdout.write(
      `${say(texts, 'key.made', { file, fingerprint: fingerprintOf(publicKeyOf(publicKey)) })}\n`,
    )
  },
}
