import type { Args } from '../texts/messages.ts'

/** What a check of evidence can find. Texts: `seal.<code>`. */
export type SealCode =
  // the folder
  | 'no-manifest'
  | 'not-a-manifest'
  | 'manifest-form'
  | 'manifest-changed'
  | 'missing'
  | 'extra'
  | 'changed'
  // the report
  | 'not-a-file'
  | 'too-large'
  | 'not-a-pdf'
  | 'pdf-unsealed'
  | 'pdf-changed'
  | 'pdf-signature-invalid'
  | 'certificate-other-key'
  | 'certified'
  | 'embedded-unreadable'
  | 'embedded-missing'
  | 'embedded-extra'
  | 'embedded-changed'
  | 'inputs-differ'
  // signatures
  | 'unsigned'
  | 'signature-invalid'
  | 'other-key'
  | 'signed'
  | 'not-signed-as-named'
  | 'signed-not-named'
  | 'signed-by-another'
  | 'not-certified-as-named'
  | 'certified-not-named'
  // redacted copies
  | 'not-a-copy'
  | 'redaction-broken'
  | 'redaction-holds'
  | 'redaction-unproven'
  | 'other-original'
  // ledgers
  | 'ledger-line'
  | 'ledger-chain'
  | 'ledger-torn'
  | 'ledger-head'
  | 'ledger-deleted'
  | 'ledger-replaced'
  | 'ledger-unlisted'

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
