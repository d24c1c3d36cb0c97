import { signerFor, type Signer } from '../seal/signing-key.ts'
import { sha256 } from '../maths/sha256.ts'
import { madeWith, type MadeWith } from './made-with.ts'
import type { Texts } from '../texts/messages.ts'
import type { PageOptions } from '../chain/run-job.ts'

/** What the reports of a call are made with: every choice of it that changes their bytes counts. */
export function madeForCall(options: PageOptions, { language, own }: Texts): MadeWith {
  const { page, embedCaptures, limits, reading, causes, proof, signedAt, shop, failOn } = options
  const signer = signerFor(options)
  return madeWith(
    {
      page,
      language,
      captures: embedCaptures,
      ...(signer === undefined ? {} : signedWith(signer)),
      ...(signedAt === undefined ? {} : { signed_at: signedAt }),
      ...(limits === undefined ? {} : { limits: JSON.stringify(limits) }),
      // They bear on whether there is a report at all: one made under wider limits does not stand for one refused.
      ...(reading === undefined ? {} : { reading: JSON.stringify(reading) }),
      ...(causes === undefined ? {} : { causes: sha256(JSON.stringify(causes)) }),
      ...(proof === undefined ? {} : { proof: sha256(JSON.stringify(proof)) }),
      ...(own === undefined ? {} : { texts: sha256(JSON.stringify(own)) }),
      ...(failOn === undefined ? {} : { fail_on: failOn }),
      ...(shop === undefined ? {} : { shop: shop.files.map((file) => file.sha256).join(' ') }),
    },
    language,
  )
}

const signedWith = ({ fingerprint, certified }: Signer) => ({
  signing_key: fingerprint,
  ...(certified && { certificate: certified.certificate.fingerprint }),
})

/**
 * What a reissue is made with: the report it replaces counts, so that another one replaced makes another report.
 * @param replacedSha256  digest of the replaced report's result.json; undefined where none is replaced
 */
export const madeForReissue = (made: MadeWith, replacedSha256: string | undefined): MadeWith =>
  replacedSha256 === undefined ? made : { ...made, options: { ...made.options, replaces: replacedSha256 } }
