import { expect, test } from 'vitest'
import { askForJob } from '../../src/cli/ask-for-job.ts'
import type { AskLine } from '../../src/cli/talk.ts'
import type { Answers } from '../../src/peek/drafted.ts'
import { guessEngine } from '../../src/peek/draft-job.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'

const texts = loadTexts('en')

/** Answers by the start of the question, one a turn; what is not listed is answered with nothing. */
async function talk(
  answers: Readonly<Record<string, readonly string[]>>,
  {
    said = {},
    unclear = [],
    looksRepaired = {},
  }: { said?: Answers; unclear?: readonly string[]; looksRepaired?: Readonly<Record<string, string>> } = {},
) {
  const asked: string[] = []
  const told: string[] = []
  const left = new Map(Object.entries(answers).map(([key, turns]) => [key, [...turns]]))
  const ask: AskLine = async (question) => {
    asked.push(question)
    return [...left].find(([start]) => question.startsWith(start))?.[1].shift() ?? ''
  }
  const got = await askForJob(ask, said, {
    texts,
    folder: 'KB-26-0001',
    guessed: (facts) => guessEngine([], facts),
    unclear: async () => ({ files: unclear, looksRepaired: new Map(Object.entries(looksRepaired)) }),
    tell: (line) => void told.push(line),
  })
  return { got, asked, told }
}

const SHOP: Answers = {
  shop: 'Invented Garage',
  technician: { name: 'T. Sample' },
  instrument: { voltage_uncertainty_percent: 5 },
}

test('several facts stand on one line, in the usual words', async () => {
  const { got, told } = await talk({
    'Work order': ['24-1'],
    Vehicle: ['2009 Demo Carrier V6 98123 mi E10'],
    Engine: ['distributor, 1-5-3-6-2-4'],
    "The customer's": ['shakes'],
  })
  expect(got).toMatchObject({
    workOrder: '24-1',
    complaint: 'shakes',
    facts: {
      year: 2009,
      make: 'Demo',
      model: 'Carrier',
      odometer: { value: 98_123, unit: 'mi' },
      cylinders: 6,
      fuel: 'E10',
      ignition: 'distributor',
      firingOrder: [1, 5, 3, 6, 2, 4],
    },
  })
  expect(told).toEqual([])
})

test('the first job asks for the shop as well, later ones do not: at most ten answers', async () => {
  const first = await talk({})
  const later = await talk({}, { said: SHOP })
  expect(first.asked.length).toBeLessThanOrEqual(10)
  expect(later.asked.map((q) => q.split(/[ :[]/)[0])).toEqual(['Work', 'Vehicle', 'The', 'Engine'])
})

test('shop, technician and instrument as they are said', async () => {
  const { got } = await talk({
    'Name of': ['Invented Garage'],
    'Your name': ['T. Sample, certificate 11'],
    Scope: ['two-channel scope with clamp, 5 %'],
  })
  expect(got).toMatchObject({
    shop: 'Invented Garage',
    technician: { name: 'T. Sample', certificate: 'certificate 11' },
    instrument: { description: 'two-channel scope with clamp', voltage_uncertainty_percent: 5 },
  })
})

test.each([
  ['4 cyl, 1-3-4', 'is no firing order of 4 cylinders'],
  ['4 cyl, 1-3-3-2', 'names each of 4 cylinders once'],
  ['diesel', 'no ignition to record'],
  ['99 cyl', '1 to 16 cylinders'],
  ['4 cyl, warp drive', '“warp drive” is not understood'],
])('%s: refused with its reason, and asked again', async (line, reason) => {
  const { got, told, asked } = await talk({ Engine: [line, '4 cyl, 1-3-4-2'] }, { said: SHOP })
  expect(told.join(' ')).toContain(reason)
  expect(asked.filter((q) => q.startsWith('Engine')).length).toBe(2)
  expect(got.facts).toMatchObject({ cylinders: 4, firingOrder: [1, 3, 4, 2] })
})

test('a wrong answer is asked for three times, then left open', async () => {
  const { asked, got } = await talk({ Engine: ['x1', 'x2', 'x3', '4 cyl'] }, { said: SHOP })
  expect(asked.filter((q) => q.startsWith('Engine')).length).toBe(3)
  expect(got.facts?.cylinders).toBeUndefined()
})

test('petrol is taken for E10, and told', async () => {
  const { got, told } = await talk({ Engine: ['4 cyl petrol'] }, { said: SHOP })
  expect(got.facts?.fuel).toBe('E10')
  expect(told).toEqual(['“petrol” is taken for E10'])
})

test('a capture that looks repaired is told and taken for it where nothing is answered', async () => {
  const { got, told } = await talk(
    { Which: [''] },
    {
      said: SHOP,
      unclear: ['captures/a.csv', 'captures/b.csv'],
      looksRepaired: { 'captures/b.csv': 'captures/a.csv' },
    },
  )
  expect(told.join(' ')).toContain('b.csv is level on the cylinders that are out of order in a.csv')
  expect(got.stages?.get('captures/b.csv')).toBe('after')
})

test('which captures came after the repair is asked where names do not say', async () => {
  const { got } = await talk(
    { Which: ['5', '2'] },
    { said: SHOP, unclear: ['captures/a.csv', 'captures/b.csv'] },
  )
  expect([...got.stages!]).toEqual([
    ['captures/a.csv', 'before'],
    ['captures/b.csv', 'after'],
  ])
})
