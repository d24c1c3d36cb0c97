/** What the check digit says of a vehicle identification number. */
export interface VinCheck {
  /** True where the text has the form of a VIN and its check digit passes. */
  valid: boolean
  check: 'passes' | 'fails' | 'not a VIN'
  /** The character position 9 should hold; absent for a text that is not a VIN. */
  expected?: string
  /** Weighted sum of the 17 values; absent for a text that is not a VIN. */
  sum?: number
}

/** 17 digits and capital letters without I, O, Q. */
const FORM = /^[A-HJ-NPR-Z0-9]{17}$/

/** Value of each letter. */
const VALUES: Readonly<Record<string, number>> = {
  A: 1,
  B: 2,
  C: 3,
  D: 4,
  E: 5,
  F: 6,
  G: 7,
  H: 8,
  J: 1,
  K: 2,
  L: 3,
  M: 4,
  N: 5,
  P: 7,
  R: 9,
  S: 2,
  T: 3,
  U: 4,
  V: 5,
  W: 6,
  X: 7,
  Y: 8,
  Z: 9,
}

/** Weight of each position; the check digit's own is 0. */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2]

/**
 * Tests the check digit in position 9. It is mandatory in North America only; elsewhere position 9 is free,
 * so a failed check is worth a warning and no more. Small letters are read as capitals.
 *
 * @source 49 CFR 565.15(c); form: 565.13(g), ISO 3779
 */
export function checkVin(vin: string): VinCheck {
  const text = vin.trim().toUpperCase()
  if (!FORM.test(text)) return { valid: false, check: 'not a VIN' }
  const sum = [...text].reduce((total, c, i) => total + WEIGHTS[i]! * (VALUES[c] ?? Number(c)), 0)
  const remainder = sum % 11
  const expected = remainder === 10 ? 'X' : String(remainder)
  const valid = text[8] === expected
  return { valid, check: valid ? 'passes' : 'fails', expected, sum }
}
