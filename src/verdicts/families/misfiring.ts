import { defineFamily } from './define-family.ts'

/** Sparks are missing, and the circuit is not open. */
export const misfiring = defineFamily({
  name: 'misfiring',
  words: 'chart.verdict.misfiring',
  all: 'pattern.all-misfiring',
  bank: 'pattern.bank-misfiring',
  weighs: {
    cylinder: 'burn-cylinder-misfiring',
    some: 'burn-some-misfiring',
    // no cause listed belongs to a bank and shows so
    bank: 'burn-some-misfiring',
    all: 'burn-all-misfiring',
  },
})
