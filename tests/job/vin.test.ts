import { describe, expect, test } from 'vitest'
import { checkVin } from '../../src/job/vin.ts'
import { referenceJson } from '../maths/reference-data.ts'

describe('check digit, published examples', () => {
  test.each([
    ['1J9RP1A36A1644345', 314, '6', 'NHTSA, Outline for new manufacturers, p. 18'],
    ['1G4AH59H45G118341', 411, '4', '49 CFR 565, sample calculation'],
    ['1M8GDM9AXKP042788', 351, 'X', 'widely printed example'],
    ['LJCPCBLCX11000237', 186, 'X', 'scientificgems, article on VIN check digits'],
    ['11111111111111111', 89, '1', 'computed: any 17 ones pass'],
    ['5GZCZ43D13S812715', 408, '1', 'widely printed example, from memory and recomputed'],
  ])('%s: sum %i, check %s (%s)', (vin, sum, expected) => {
    expect(checkVin(vin)).toEqual({ valid: true, check: 'passes', expected, sum })
  })

  // Every single wrong character changes the sum by weight times a difference of -9 to 9, and the modulus 11 is prime:
  // only characters of equal value may be confused without notice (49 CFR 565.15(c), by its own arithmetic).
  test('every wrong digit in a position with a weight is noticed', () => {
    const vin = '1M8GDM9AXKP042788'
    const missed = [...vin].flatMap((c, i) =>
      /\d/.test(c)
        ? [...'0123456789']
            .filter((d) => d !== c)
            .filter((d) => checkVin(vin.slice(0, i) + d + vin.slice(i + 1)).valid)
        : [],
    )
    expect(missed).toEqual([])
  })

  test('small letters are read as capitals', () => expect(checkVin('1m8gdm9axkp042788').check).toBe('passes'))
  test.each(['', '1M8GDM9AXKP04278', '1M8GDM9AXKP0427888', '1M8GDM9AXKP04278O', '1M8GDM9AXKP0427é8'])(
    'not a VIN: %s',
    (vin) => {
      expect(checkVin(vin)).toEqual({ valid: false, check: 'not a VIN' })
    },
  )
})

describe('reference data: 49 CFR 565.15(c)', () => {
  const { vin } = referenceJson<{ vin: { vin: string; check: string; sum: number; valid: boolean }[] }>(
    'vin-dtc-pid.json',
  )
  test.each(vin)('$vin', ({ vin: text, check, sum, valid }) => {
    const found = checkVin(text)
    expect(found.valid).toBe(valid)
    if (found.check !== 'not a VIN') expect(found).toMatchObject({ expected: check, sum })
  })
})
