import { defineFamily } from './define-family.ts'

/** Falling resistance in the cylinder: too much fuel, or too little compression. */
export const falling = defineFamily({
  name: 'falling',
  words: 'fleet.family.falling',
  all: 'pattern.all-falling',
  bank: 'pattern.bank-falling',
  weighs: {
    cylinder: 'burn-cylinder-falling',
    some: 'burn-some-falling',
    bank: 'burn-bank-falling',
    all: 'burn-all-falling',
  },
})
