import { checkSimulated, unchangedPair, type Retake } from '../support/repair-trials.ts'

/**
 * How often the repair check sees a change where nothing was done: pairs of simulated recordings of one engine with one
 * or two cylinders out of order, by luck near a limit; all invented (src/model). The second recording is taken with the
 * same recorder at the same speed, with another recorder, at a speed up to 10 % off, or both.
 * Goal: `repair confirmed` and `worse` hardly ever. A shift's interval holds zero: the changes really made are none.
 *
 *   npm run bench:repairs       REPAIR_PAIRS (300) pairs from seed REPAIR_FIRST (0) on
 */
const PAIRS = Number(process.env['REPAIR_PAIRS'] ?? 300)
const FIRST = Number(process.env['REPAIR_FIRST'] ?? 0)
const RETAKES: readonly (Retake & { name: string })[] = [
  { name: 'same again', recorder: false, speed: false },
  { name: 'another recorder', recorder: true, speed: false },
  { name: 'another speed', recorder: false, speed: true },
  { name: 'both', recorder: true, speed: true },
]
const counts = new Map<string, number>()
const add = (...key: string[]): void => void counts.set(key.join(', '), (counts.get(key.join(', ')) ?? 0) + 1)

for (let seed = FIRST; seed < FIRST + PAIRS; seed++) {
  const retake = RETAKES[seed % RETAKES.length]!
  const check = checkSimulated(...unchangedPair(seed, retake))
  if ('refused' in check) {
    add(retake.name, 'refused')
    continue
  }
  add(retake.name, 'engines', check.verdict)
  for (const { cylinder, before, after, verdict, shifts } of check.cylinders) {
    add(retake.name, 'cylinders', verdict)
    if (verdict !== 'no change' && verdict !== 'not checked')
      console.log(`pair ${seed}, cylinder ${cylinder}: ${before}, then ${after}: ${verdict}`)
    for (const [name, shift] of Object.entries(shifts)) {
      if (shift.ok)
        add(
          retake.name,
          name,
          shift.interval.low <= 0 && shift.interval.high >= 0 ? 'interval holds 0' : 'interval leaves out 0',
        )
    }
  }
}
for (const [key, count] of [...counts].sort(([a], [b]) => (a < b ? -1 : 1)))
  console.log(`${String(count).padStart(6)}  ${key}`)
