import { broken, type SealFinding } from '../seal/finding.ts'
import { readSeal } from '../seal/seal-manifest.ts'
import { certificateOfPdf, sealOfPdf } from '../seal/seal-pdf.ts'
import { fingerprintOf } from '../seal/signing-key.ts'

const MANIFEST = 'manifest.json'
const REPORT = 'report.pdf'

/**
 * The record says who signed; manifest and report have to be signed by that key, and by nobody where it names none. So a
 * signature taken off, put on, or made with another key shows, although each seal by itself holds.
 *
 * @param program   JSON text of what the result.json that the report carries says of the program
 * @param manifest  text of manifest.json, where there is one
 */
export function checkSigners(of: {
  program: string | undefined
  pdf: Uint8Array
  manifest?: string
}): SealFinding[] {
  const named = namedIn(of.program)
  if (!named) return [] // no record that can be read: found with the embedded files
  const found = certificateOfPdf(of.pdf)
  return [
    ...(of.manifest === undefined
      ? []
      : compare(MANIFEST, named.signing_key, readSeal(of.manifest)?.seal.public_key)),
    ...compare(REPORT, named.signing_key, sealOfPdf(of.pdf)?.key),
    ...(named.certificate?.sha256 === found
      ? []
      : [
          found === undefined
            ? broken('not-certified-as-named', REPORT, { named: named.certificate!.sha256 })
            : broken('certified-not-named', REPORT, { found }),
        ]),
  ]
}

interface Named {
  signing_key?: string
  certificate?: { sha256: string }
}

function namedIn(program: string | undefined): Named | undefined {
  if (program === undefined) return undefined
  try {
    return JSON.parse(program) as Named
  } catch {
    return undefined // no JSON: the embedded file differs from the listed one, which is found
  }
}

function compare(file: string, named: string | undefined, key: string | undefined): SealFinding[] {
  const found = key === undefined ? undefined : fingerprintOf(key)
  if (named === found) return []
  if (found === undefined) return [broken('not-signed-as-named', file, { named: named! })]
  return [
    named === undefined
      ? broken('signed-not-named', file, { found })
      : broken('signed-by-another', file, { named, found }),
  ]
}
