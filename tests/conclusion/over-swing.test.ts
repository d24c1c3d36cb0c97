import { expect, test } from 'vitest'
import { concludeTold, TOLD, type Told } from '../support/page-one.ts'

// A leak weighs more while an idle dips. @source common practice, no source

const told = TOLD.find(({ name }) => name === 'lean at one end of the swing')!
const mixtures = (of: Told) =>
  concludeTold(of).findings.filter((f) => f.kind === 'mixture' && f.order !== 'in order')

test('lean while the idle dips is a finding of its own, whatever the middle is called', () => {
  const { findings, asFound, headline } = concludeTold(told)
  const [found, ...others] = mixtures(told)
  expect(others).toEqual([])
  expect(found).toMatchObject({
    order: 'out of order',
    direction: 'lean',
    reading: 'speed low',
    where: { cylinders: [2, 3] },
    size: { value: 34, limitHigh: 20 },
  })
  expect(asFound.class).toBe('fault')
  expect(JSON.stringify(headline)).toContain('headline.found.lean-low')
  const level = findings.filter((f) => f.kind === 'mixture' && f.order === 'in order')
  expect(level.flatMap((f) => f.where.cylinders)).toEqual([1, 4, 5, 6, 7, 8])
})

test('an end whose own interval reaches the limit is none', () => {
  const near = Object.fromEntries(
    Object.entries(told.overSwing!).map(([cylinder, w]) => [cylinder, { ...w, lowReach: 15 }]),
  )
  expect(mixtures({ ...told, overSwing: near }).map((f) => [f.order, f.reading])).toEqual([
    ['unsure', undefined],
  ])
})
