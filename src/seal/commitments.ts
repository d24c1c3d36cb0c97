import canonicalize from 'canonicalize'
import { sha256 } from '../maths/sha256.ts'

/** One part of what was signed: a digest of it with a secret, so that a withheld part cannot be found by trying. */
export interface Commitment {
  path: string
  digest: string
  /** Given for parts that are shown. */ salt?: string
}

/**
 * Digest of a part with its salt.
 *
 * @source the scheme is that of RFC 9901 (selective disclosure): the signer signs salted digests, a holder shows salts
 */
export const partDigest = (part: { path: string; value: unknown }, salt: string): string =>
  sha256(`burnline part 2\n${salt}\n${part.path}\n${canonicalize(part.value) ?? ''}\n`)

/** The same as outputs had it before digests were of canonical JSON (RFC 8785). */
export const earlierPartDigest = (part: { path: string; value: unknown }, salt: string): string =>
  sha256(`burnline part 1\n${salt}\n${part.path}\n${JSON.stringify(part.value)}\n`)

/** Commits to every part; `saltOf` must be secret and differ from path to path. */
export const commit = (
  parts: readonly { path: string; value: unknown }[],
  saltOf: (path: string) => string,
): Required<Commitment>[] =>
  parts.map((part) => {
    const salt = saltOf(part.path)
    return { path: part.path, digest: partDigest(part, salt), salt }
  })

/** Digest of the whole list, which is what is signed. */
export const commitmentsDigest = (commitments: readonly Commitment[]): string =>
  sha256(commitments.map(({ digest, path }) => `${digest}  ${path}\n`).join(''))
