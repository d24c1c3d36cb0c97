import { publicKeyOf, signerOf } from '../seal/signing-key.ts'
import { UsageError } from './usage-error.ts'
import { readRegularText } from '../files/regular-file.ts'

/** The shop's private key from a file, as PEM. @throws UsageError for a file that is not there or holds no such key */
function readSigningKey(path: string): string {
  return checked(path, (pem) => {
    signerOf(pem)
  })
}

/** The choices of a call that signs. @throws UsageError for a key that is none, or a date that is none or has no key to sign with */
export function readSigning({ key, signedAt }: { key: string | undefined; signedAt: string | undefined }): {
  signingKeyPem?: string
  signedAt?: string
} {
  if (signedAt !== undefined && (key === undefined || !isDate(signedAt)))
    throw new UsageError(
      key === undefined
        ? '--signed-at goes with --key'
        : `--signed-at takes a date such as 2026-03-05; found “${signedAt}”`,
    )
  return {
    ...(key === undefined ? {} : { signingKeyPem: readSigningKey(key) }),
    ...(signedAt === undefined ? {} : { signedAt }),
  }
}

const isDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) &&
  !Number.isNaN(Date.parse(text)) &&
  new Date(text).toISOString().startsWith(text)

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
    const pem = readRegularText(path)
    check(pem)
    return pem
  } catch (cause) {
    throw new UsageError(
      `--key: “${path}” cannot be read as an ed25519 key in PEM: ${(cause as Error).message}`,
      { cause },
    )
  }
}
