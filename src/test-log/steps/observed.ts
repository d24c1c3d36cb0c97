import type { Says, TestFinding } from '../findings.ts'

/** A sentence about the place of a test. */
export const saysPlace = (key: string, { place }: TestFinding): Says => ({
  key,
  args: { place: place ?? '' },
})
