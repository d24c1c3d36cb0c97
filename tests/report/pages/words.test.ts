import { expect, test } from 'vitest'
import { findingWords } from '../../../src/report/pages/words.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'

test('smoke comes out or does not; only a spray gets a response', () => {
  const said = (step: string, finding: string) => findingWords(loadTexts('en'), { step, finding })
  expect([said('smoke', 'no response'), said('smoke', 'response'), said('smoke', 'recorded')]).toEqual([
    'no smoke came out',
    'smoke came out',
    'recorded',
  ])
  expect(said('spray', 'no response')).toBe('no response')
})
