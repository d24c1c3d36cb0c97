import { defineFamily } from './define-family.ts'

/** Rising resistance in the cylinder: too much air for the fuel. */
export const lean = defineFamily({
  name: 'lean',
  words: 'chart.verdict.lean',
  all: 'pattern.all-lean',
  bank: 'pattern.bank-lean',
  weighs: {
    cylinder: 'burn-cylinder-lean',
    some: 'burn-some-lean',
    bank: 'burn-bank-lean',
    all: 'burn-all-lean',
  },
})
