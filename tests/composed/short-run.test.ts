import { expect, test } from 'vitest'
import { composeJob } from '../support/composed/compose.ts'
import { judgeComposed } from '../support/composed/judge.ts'

// The short run of `npm run bench:composed`: the first jobs from one seed, every fourth with page one and in another order.
test('twenty composed jobs break nothing that must hold', async () => {
  for (let seed = 2000; seed < 2020; seed++) {
    const { breaches } = await judgeComposed(composeJob(seed), {
      page: seed % 4 === 0,
      otherOrder: seed % 4 === 1,
    })
    expect(breaches).toEqual([])
  }
})
