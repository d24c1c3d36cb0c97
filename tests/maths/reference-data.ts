import { existsSync, readFileSync } from 'node:fs'

const FOLDER = new URL('../../../shared/reference-data/', import.meta.url)

/** Text of a reference file that may stand beside the checkout; undefined, with a notice, where it does not. */
export function referenceText(file: string): string | undefined {
  const url = new URL(file, FOLDER)
  if (existsSync(url)) return readFileSync(url, 'utf8')
  console.log('skipped: reference data not present')
  return undefined
}

/** A reference file parsed as JSON. The caller states its shape. */
export function referenceJson<T>(file: string): T | undefined {
  const text = referenceText(file)
  return text === undefined ? undefined : (JSON.parse(text) as T)
}

/** |a - b| relative to |b|, absolute where b is 0. */
export const relativeGap = (a: number, b: number): number => Math.abs(a - b) / (b === 0 ? 1 : Math.abs(b))
