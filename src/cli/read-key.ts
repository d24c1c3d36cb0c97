import { readFileSync } from 'node:fs'
import { publicKeyOf, signerOf } from '../seal/signing-key.ts'
import { UsageError } from './usage-error.ts'

/** The shop's private key from a file, as PEM. @throws UsageError for a file that is not there or holds no such key */
export function readSigningKey(path: string): string {
  return checked(path, (pem) => {
    signerOf(pem)
  })
}

/** A public key from a file, as hex; of a private key its public half. @throws UsageError as above */
export function readPublicKey(path: string): string {
  return publicKeyOf(
    checked(path, (pem) => {
      publicKeyOf(pem)
    }),
  )
}

function checked(path: string, check: (pem: string) => void): string {
  try {
    const pem = readFileSync(path, 'utf8')
    check(pem)
    return pem
  } catch (cause) {
    throw new UsageError(
      `--key: “${path}” cannot be read as an ed25519 key in PEM: ${(cause as Error).message}`,
      { cause },
    )
  }
}
