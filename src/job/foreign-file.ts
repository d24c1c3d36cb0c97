/** What a file is that was taken for text; each is a phrase of the texts, `phrase.not-text.<kind>`. */
export type ForeignKind =
  'workbook' | 'zip' | 'archive' | 'pdf' | 'picture' | 'web-page' | 'document' | 'side-file' | 'zeros'

/** Bytes at the very start by which a kind of file is known; the first that fits counts. */
const STARTS: readonly (readonly [ForeignKind, readonly number[]])[] = [
  ['zip', [0x50, 0x4b, 0x03, 0x04]],
  ['zip', [0x50, 0x4b, 0x05, 0x06]],
  ['workbook', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]],
  ['pdf', [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ['picture', [0x89, 0x50, 0x4e, 0x47]],
  ['picture', [0xff, 0xd8, 0xff]],
  ['picture', [0x47, 0x49, 0x46, 0x38]],
  ['archive', [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c]],
  ['archive', [0x52, 0x61, 0x72, 0x21, 0x1a, 0x07]],
  ['archive', [0x42, 0x5a, 0x68]],
  ['archive', [0xfd, 0x37, 0x7a, 0x58, 0x5a]],
  ['archive', [0x28, 0xb5, 0x2f, 0xfd]],
  ['side-file', [0x00, 0x05, 0x16, 0x07]],
]
const WEB_PAGE = /^\s*<(?:!doctype\s+html|html|head|body)\b/i
const RICH_TEXT = /^\s*\{\\rtf/
/** Parts that every workbook of the zipped kind has, by name. */
const WORKBOOK_PART = /\[Content_Types\]\.xml|\bxl\//
/** Fewer zero bytes than this may be the end of something; so many at the start are a file that was never filled. */
const LEAST_ZEROS = 64
/** Bytes looked at for words. */
const WORD_BYTES = 4096

/**
 * Recognises a file that is no text by its first bytes, whatever its name: a workbook or an archive renamed to .csv, a
 * log-in page saved instead of a download, a placeholder of a cloud folder that was never filled.
 * @param head  the first bytes of the file
 */
export function foreignKind(head: Uint8Array): ForeignKind | undefined {
  const start = STARTS.find(([, bytes]) => bytes.every((byte, i) => head[i] === byte))?.[0]
  const words = Buffer.from(head.buffer, head.byteOffset, Math.min(head.length, WORD_BYTES)).toString(
    'latin1',
  )
  if (start === 'zip') return WORKBOOK_PART.test(words) ? 'workbook' : 'zip'
  if (start !== undefined) return start
  if (WEB_PAGE.test(words)) return 'web-page'
  if (RICH_TEXT.test(words)) return 'document'
  return head.length >= LEAST_ZEROS && head.every((byte) => byte === 0) ? 'zeros' : undefined
}
