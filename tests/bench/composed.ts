import { parseArgs } from 'node:util'
import { composeJob } from '../support/composed/compose.ts'
import { Library } from '../support/composed/run.ts'
import { judgeComposed, type Breach } from '../support/composed/judge.ts'

/**
 * `npm run bench:composed -- --count N --seed S`: composed jobs held against what must always hold.
 * Every breach is printed with its seed; `--count 1 --seed <it>` runs that job alone.
 */
const { values } = parseArgs({
  args: process.argv.slice(2),
  options: {
    count: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    show: { type: 'string', default: '12' },
    page: { type: 'string', default: '10' },
  },
})
const [count, seed, every, most] = [values.count, values.seed, values.page, values.show].map(Number) as [
  number,
  number,
  number,
  number,
]
const library = new Library()
const breaches: Breach[] = []
const shares: Record<string, number> = { right: 0, 'left open': 0, wrong: 0 }
const wrong: number[] = []
const unjudged = [0, 0]
for (let s = seed; s < seed + count; s++) {
  const job = composeJob(s)
  try {
    const judged = await judgeComposed(job, {
      page: s % every === 0 || count === 1,
      otherOrder: s % every === 1 || count === 1,
      library,
    })
    breaches.push(...judged.breaches)
    shares[judged.share]!++
    unjudged[0]! += judged.unjudged[0]
    unjudged[1]! += judged.unjudged[1]
    if (judged.share === 'wrong') wrong.push(s)
  } catch (cause) {
    breaches.push({ seed: s, predicate: '0 a report is made', what: (cause as Error).message })
  }
}
const predicates = [...new Set(breaches.map((b) => b.predicate))].toSorted((a, b) =>
  a.localeCompare(b, 'en', { numeric: true }),
)
for (const predicate of predicates) {
  const of = breaches.filter((b) => b.predicate === predicate)
  console.log(`\n${predicate}: ${of.length} in ${new Set(of.map((b) => b.seed)).size} jobs`)
  for (const { seed: s, what } of of.slice(0, most)) console.log(`  ${s}  ${what}`)
  if (of.length > most)
    console.log(
      `  and ${of.length - most} more: ${of
        .slice(most, most + 20)
        .map((b) => b.seed)
        .join(', ')}`,
    )
}
console.log(
  `\n${count} jobs from seed ${seed}: ${breaches.length} breaches in ${new Set(breaches.map((b) => b.seed)).size} jobs`,
)
console.log(
  Object.entries(shares)
    .map(([share, n]) => `${share} ${((100 * n) / count).toFixed(1)} %`)
    .join(', '),
)
console.log(`cylinders not judged as found: ${unjudged[0]} of ${unjudged[1]}`)
if (wrong.length > 0) console.log(`cause named wrongly: ${wrong.join(', ')}`)
process.exitCode = breaches.length > 0 ? 1 : 0
