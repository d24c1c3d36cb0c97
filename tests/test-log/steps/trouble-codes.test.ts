import { expect, test } from 'vitest'
import { TROUBLE_CODE } from '../../../src/test-log/steps/code.ts'
import { codeFromBytes, codeParts, meaningOf } from '../../../src/test-log/steps/trouble-codes.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import { referenceJson } from '../../maths/reference-data.ts'

// SAE J2012 / ISO 15031-6 two-byte coding
test.each([
  [0x0143, 'P0143'],
  [0x0196, 'P0196'],
  [0x0234, 'P0234'],
  [0x02cd, 'P02CD'],
  [0x0357, 'P0357'],
  [0x0a24, 'P0A24'],
  [0xc073, 'U0073'],
  [0x9000, 'B1000'],
  [0x4123, 'C0123'],
  [0xd001, 'U1001'],
  [0x1171, 'P1171'],
])('bytes %i are %s', (raw, code) => expect(codeFromBytes(raw)).toBe(code))

const reference = referenceJson<{ dtc: { raw: string; code: string }[] }>('vin-dtc-pid.json')
test('codes of the reference file', () => {
  for (const { raw, code } of reference.dtc) expect(codeFromBytes(Number.parseInt(raw, 16))).toBe(code)
})

test.each([
  ['P0171', 'standard'],
  ['P2187', 'standard'],
  ['P1171', 'maker'],
  ['P3000', 'maker'],
  ['P33FF', 'maker'],
  ['P3400', 'standard'],
  ['P3FFF', 'standard'],
  ['B0001', 'standard'],
  ['B1000', 'maker'],
  ['B2000', 'maker'],
  ['B3000', 'reserved'],
  ['C0123', 'standard'],
  ['C1000', 'maker'],
  ['C3000', 'reserved'],
  ['U0073', 'standard'],
  ['U1001', 'maker'],
  ['U2000', 'maker'],
  ['U3000', 'standard'],
])('%s is defined by: %s', (code, defined) => expect(codeParts(code).defined).toBe(defined))

test('a maker-defined code never gets a meaning', () => {
  for (let raw = 0; raw <= 0xffff; raw++) {
    const code = codeFromBytes(raw)
    if (codeParts(code).defined !== 'standard') expect(meaningOf(code)).toBeUndefined()
  }
})

test('every meaning has its sentence', () => {
  const { templates } = loadTexts('en')
  for (let raw = 0; raw < 0x4000; raw++) {
    const meaning = meaningOf(codeFromBytes(raw))
    if (meaning) expect(templates[meaning.key]).toBeDefined()
  }
})

test('cylinders, coils and banks', () => {
  expect(meaningOf('P0304')).toMatchObject({ about: 'misfire', cylinder: 4 })
  expect(meaningOf('P0312')).toMatchObject({ cylinder: 12 })
  expect(meaningOf('P030A')).toBeUndefined()
  expect(meaningOf('P0203')).toMatchObject({ about: 'injector', cylinder: 3 })
  expect(meaningOf('P0352')).toMatchObject({ about: 'ignition', coil: 'B' })
  expect(meaningOf('P0174')).toMatchObject({ about: 'lean', bank: 2 })
})

test.each([
  ['P0171', true],
  ['P017', false],
  ['X0171', false],
  ['P4171', false],
  ['P01G1', false],
])('format of %s', (code, good) => expect(TROUBLE_CODE.test(code)).toBe(good))
