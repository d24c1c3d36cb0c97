import { readFileSync } from 'node:fs'

const FOLDER = new URL('../fixtures/reference-data/', import.meta.url)

/** Text of a file of reference figures (tests/fixtures/reference-data, each with its source); none may be missing. */
export const referenceText = (file: string): string => readFileSync(new URL(file, FOLDER), 'utf8')

/** A reference file parsed as JSON. The caller states its shape. */
export const referenceJson = <T>(file: string): T => JSON.parse(referenceText(file)) as T

/** |a - b| relative to |b|, absolute where b is 0. */
export const relativeGap = (a: number, b: number): number => Math.abs(a - b) / (b === 0 ? 1 : Math.abs(b))
