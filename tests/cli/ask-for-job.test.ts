import { expect, test } from 'vitest'
import { askForJob } from '../../src/cli/ask-for-job.ts'
import type { AskLine } from '../../src/cli/talk.ts'
import { guessEngine } from '../../src/peek/draft-job.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'

const texts = loadTexts('en')

/** Answers by the start of the question, one a turn; what is not listed is answered with nothing. */
function talking(answers: Readonly<Record<string, readonly string[]>>): { ask: AskLine; asked: string[] } {
  const asked: string[] = []
  const left = new Map(Object.entries(answers).map(([key, turns]) => [key, [...turns]]))
  const ask: AskLine = async (question) => {
    asked.push(question)
    return [...left].find(([start]) => question.startsWith(start))?.[1].shift() ?? ''
  }
  return { ask, asked }
}
const about = { texts, guessed: (said: Parameters<typeof guessEngine>[1]) => guessEngine([], said) }

test('what is answered is taken, each in its form', async () => {
  const { ask } = talking({
    'Work order': ['24-1'],
    Cylinders: ['6'],
    'Firing order': ['1-5-3-6-2-4'],
    Ignition: ['Distributor'],
    Fuel: ['e10'],
    Make: ['Invented'],
  })
  expect(await askForJob(ask, about)).toMatchObject({
    workOrder: '24-1',
    cylinders: 6,
    firingOrder: [1, 5, 3, 6, 2, 4],
    ignition: 'distributor',
    fuel: 'E10',
    make: 'Invented',
    complaint: undefined,
  })
})

test('an empty answer leaves everything open', async () => {
  const { ask, asked } = talking({})
  expect(Object.values(await askForJob(ask, about)).filter((v) => v !== undefined)).toEqual([])
  expect(asked).toHaveLength(10)
})

test('a wrong answer is asked for again, and left open after the third', async () => {
  const { ask, asked } = talking({ Cylinders: ['six', '4'], Fuel: ['wood', 'coal', 'peat', 'E5'] })
  expect(await askForJob(ask, about)).toMatchObject({ cylinders: 4, fuel: undefined })
  expect(asked.filter((q) => q.startsWith('Cylinders'))).toHaveLength(2)
  expect(asked.filter((q) => q.startsWith('Fuel'))).toHaveLength(3)
})

test.each(['1 3 4', '1 1 3 4', '1 2 3 5', '1 3 4 x'])('“%s” is no firing order of four', async (order) => {
  const { ask } = talking({ Cylinders: ['4'], 'Firing order': [order] })
  expect((await askForJob(ask, about)).firingOrder).toBeUndefined()
})

test('the guess that follows from an answer is shown', async () => {
  const { ask, asked } = talking({ Cylinders: ['4'] })
  await askForJob(ask, about)
  expect(asked.find((q) => q.startsWith('Firing order'))).toContain('[1 3 4 2]')
})
