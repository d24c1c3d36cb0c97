import type { Args, TextKey } from '../texts/messages.ts'

/** What a check of evidence can find, in words. */
export const SEAL_SAYS = {
  // the folder
  'no-manifest': 'seal.no-manifest',
  'not-a-manifest': 'seal.not-a-manifest',
  'manifest-form': 'seal.manifest-form',
  'manifest-changed': 'seal.manifest-changed',
  missing: 'seal.missing',
  extra: 'seal.extra',
  changed: 'seal.changed',
  // the report
  'not-a-file': 'seal.not-a-file',
  'too-large': 'seal.too-large',
  'not-a-pdf': 'seal.not-a-pdf',
  'pdf-unsealed': 'seal.pdf-unsealed',
  'pdf-changed': 'seal.pdf-changed',
  'pdf-signature-invalid': 'seal.pdf-signature-invalid',
  'certificate-other-key': 'seal.certificate-other-key',
  certified: 'seal.certified',
  'embedded-unreadable': 'seal.embedded-unreadable',
  'embedded-missing': 'seal.embedded-missing',
  'embedded-extra': 'seal.embedded-extra',
  'embedded-changed': 'seal.embedded-changed',
  'inputs-differ': 'seal.inputs-differ',
  // signatures
  unsigned: 'seal.unsigned',
  'signature-invalid': 'seal.signature-invalid',
  'other-key': 'seal.other-key',
  signed: 'seal.signed',
  'not-signed-as-named': 'seal.not-signed-as-named',
  'signed-not-named': 'seal.signed-not-named',
  'signed-by-another': 'seal.signed-by-another',
  'not-certified-as-named': 'seal.not-certified-as-named',
  'certified-not-named': 'seal.certified-not-named',
  // redacted copies
  'not-a-copy': 'seal.not-a-copy',
  'redaction-broken': 'seal.redaction-broken',
  'redaction-holds': 'seal.redaction-holds',
  'redaction-unproven': 'seal.redaction-unproven',
  'other-original': 'seal.other-original',
  // ledgers
  'ledger-line': 'seal.ledger-line',
  'ledger-chain': 'seal.ledger-chain',
  'ledger-torn': 'seal.ledger-torn',
  'ledger-head': 'seal.ledger-head',
  'ledger-deleted': 'seal.ledger-deleted',
  'ledger-replaced': 'seal.ledger-replaced',
  'ledger-unlisted': 'seal.ledger-unlisted',
} as const satisfies Record<string, TextKey>

export type SealCode = keyof typeof SEAL_SAYS

/** One result of a check: `broken` fails it, `note` is said beside it. */
export interface SealFinding {
  code: SealCode
  severity: 'broken' | 'note'
  file: string
  args: Args
}

export const broken = (code: SealCode, file: string, args: Args = {}): SealFinding => ({
  code,
  severity: 'broken',
  file,
  args,
})
export const noted = (code: SealCode, file: string, args: Args = {}): SealFinding => ({
  code,
  severity: 'note',
  file,
  args,
})
