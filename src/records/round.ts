/**
 * Rounds to `digits` significant digits, so that result.json carries no digits that mean nothing
 * and the same figure prints alike everywhere it is shown.
 */
export const toDigits = (value: number, digits = 6): number => Number(value.toPrecision(digits))
