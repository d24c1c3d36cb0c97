import { loadLimits } from '../../src/limits/limits.ts'
import { benchLimits, runTrial, TRIAL_KINDS, type TrialKind, type TrialResult } from '../support/spray-trials.ts'

/**
 * How often the spray test is fooled and how often it finds: simulated idles, all invented (tests/support, and src/model).
 * Goals: false alarms in at most 5 % of traces; at least 95 % of 60 rpm responses found with 60 s of trace.
 * Number of traces for each line: SPRAY_TRIALS, 200 unless set.
 */
const TRIALS = Number(process.env['SPRAY_TRIALS'] ?? 200)

interface Plan { name: string; seconds: number; places: readonly string[]; answers: Readonly<Record<string, number>> }

const one = (rpm: number): Plan => ({ name: `1 place, 60 s, ${rpm} rpm`, seconds: 60, places: ['a'], answers: { a: rpm } })
const PLANS: readonly Plan[] = [
  one(20), one(40), one(60), one(100), one(150),
  { name: '1 place twice, 60 s, 60 rpm', seconds: 60, places: ['a', 'a'], answers: { a: 60 } },
  { name: '3 places, 60 s, 60 rpm', seconds: 60, places: ['a', 'b', 'c'], answers: { b: 60 } },
  { name: '3 places, 120 s, 60 rpm', seconds: 120, places: ['a', 'b', 'c'], answers: { b: 60 } },
  { name: '3 places, 180 s, 60 rpm', seconds: 180, places: ['a', 'b', 'c'], answers: { b: 60 } },
  { name: '1 place, 20 s, 60 rpm', seconds: 20, places: ['a'], answers: { a: 60 } },
]

const percent = (part: number, of: number): string => (of === 0 ? '-' : `${((100 * part) / of).toFixed(1)} %`).padStart(8)

function measure(plan: Plan, kind: TrialKind) {
  const { limits, throttleRpm } = benchLimits(loadLimits())
  let alarms = 0
  let found = 0
  let elsewhere = 0
  let unclear = 0
  let covered = 0
  let sized = 0
  for (let k = 0; k < TRIALS; k++) {
    const base = { seconds: plan.seconds, kind, seed: 1000 + k, places: plan.places }
    const silent = runTrial({ ...base, answers: {} }, limits, throttleRpm)
    const answered = runTrial({ ...base, answers: plan.answers }, limits, throttleRpm)
    if (silent.judged.some((j) => j.finding === 'response')) alarms++
    const at = (r: TrialResult, responding: boolean) => r.judged.filter((j) => (plan.answers[plan.places[j.id]!] !== undefined) === responding)
    if (at(answered, true).some((j) => j.finding === 'response')) found++
    else if (at(answered, true).every((j) => j.finding === 'unclear')) unclear++
    if (at(answered, false).some((j) => j.finding === 'response')) elsewhere++
    for (const j of at(answered, true)) {
      const truth = answered.trueRpm[j.id]!
      sized++
      if (j.change.low <= truth && truth <= j.change.high) covered++
    }
  }
  return { alarms, found, unclear, elsewhere, covered, sized }
}

console.log(`${TRIALS} traces a line. False alarms: any response where nothing responds. Elsewhere: a silent place called responding`)
console.log('beside a responding one. Covered: the 95 % interval holds the largest change really made.')
console.log(`${'plan'.padEnd(30)}${'idle'.padEnd(22)}false alarms    found  unclear  elsewhere  covered`)
for (const plan of PLANS) {
  for (const kind of TRIAL_KINDS) {
    const m = measure(plan, kind)
    console.log(`${plan.name.padEnd(30)}${kind.padEnd(22)}    ${percent(m.alarms, TRIALS)} ${percent(m.found, TRIALS)} ${percent(m.unclear, TRIALS)}   ${percent(m.elsewhere, TRIALS)} ${percent(m.covered, m.sized)}`)
  }
}
