import { contentRules } from './content-rules.ts'
import { fileRules } from './file-rules.ts'
import { formRules } from './form-rules.ts'
import { attachmentRules, metadataRules } from './metadata-rules.ts'
import { PdfFile } from './pdf-file.ts'
import { treeRules } from './tree-rules.ts'

/**
 * What in a report's file breaks a rule of PDF/A-3a or PDF/UA-1 that can be told from the file itself; empty where nothing
 * does. Numbers of clauses are of ISO 19005-3, after `UA` of ISO 14289-1. A check of our own and no proof of conformance.
 */
export function breaches(bytes: Uint8Array): string[] {
  const pdf = new PdfFile(bytes)
  const { found, marks } = contentRules(pdf)
  return [
    ...fileRules(pdf),
    ...found,
    ...treeRules(pdf, marks),
    ...formRules(pdf),
    ...metadataRules(pdf),
    ...attachmentRules(pdf),
  ]
}
