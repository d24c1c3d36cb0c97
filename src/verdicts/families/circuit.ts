import { defineFamily } from './define-family.ts'

/** Something is wrong between coil and plug gap. */
export const circuit = defineFamily({
  name: 'circuit',
  words: 'fleet.family.circuit',
  all: 'pattern.all-circuit',
  bank: 'pattern.bank-circuit',
  weighs: {
    cylinder: 'burn-cylinder-circuit',
    some: 'burn-some-circuit',
    // no cause listed belongs to a bank and shows so
    bank: 'burn-some-circuit',
    all: 'burn-all-circuit',
  },
})
