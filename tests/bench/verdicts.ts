import { AFFECTED_CYLINDER, conditionCapture, CONDITIONS, RECORDERS, type Reading } from '../../src/model/conditions.ts'
import { judgeSimulated } from '../support/judge-simulated.ts'
import { levelEngine } from '../support/level-engines.ts'

/**
 * How often the whole chain, from samples to verdict, says what is so: simulated captures, all invented (src/model).
 *
 * 1. Every condition in three severities on two recorders, one cylinder of four affected: the confusion matrix.
 *    Clear: the true late rise of a lean or falling cylinder is at least twice the limit; every case of another kind,
 *    but for an intermittent open circuit of which the record holds not one event.
 *    Wrong: a verdict that is neither accepted, nor `borderline`, nor `not judged`; for a clear case `borderline` is
 *    counted apart.
 * 2. Cylinders with their mixture in order, over engines, pickups, recorders, speeds and noise: how many are called
 *    lean or falling. Goal: none of 10 000.
 *
 *   npm run bench:verdicts      VERDICT_SEEDS (10) seeds a case, VERDICT_LEVEL (10000) level cylinders from seed VERDICT_FIRST (1) on
 */
const SEEDS = Number(process.env['VERDICT_SEEDS'] ?? 10)
const LEVEL = Number(process.env['VERDICT_LEVEL'] ?? 10_000)
const FIRST_LEVEL_SEED = Number(process.env['VERDICT_FIRST'] ?? 1)
/** Twice the limit on the late rise, %. */
const CLEAR_PCT = 40
const VERDICTS = ['level', 'lean', 'falling', 'external resistance', 'open secondary', 'misfiring', 'borderline', 'not judged', 'refused'] as const

interface Case { name: string; severity: number; recorder: string; wanted: Reading; accept: readonly string[]; clear: boolean; verdict: string }

const cases: Case[] = []
/** Verdicts on the healthy cylinders beside the affected one. */
const beside: string[] = []
for (const { name: recorder, recorder: model } of RECORDERS) {
  for (const condition of CONDITIONS) {
    condition.severities.forEach((severity, k) => {
      for (let seed = 1; seed <= SEEDS; seed++) {
        const outcome = judgeSimulated(conditionCapture(severity, condition.name, { recorder: model, seed: 100 * seed + k }))
        const wanted = severity.accept[0]!
        const rise = outcome.refused ? undefined : outcome.trueLateRisePct.get(AFFECTED_CYLINDER)
        // An intermittent fault that luck has kept out of a record altogether cannot be seen in it.
        const shows = wanted !== 'open secondary' || outcome.refused !== undefined || (outcome.trueNoLines.get(AFFECTED_CYLINDER) ?? 0) > 0
        const clear = wanted === 'lean' || wanted === 'falling' ? Math.abs(rise ?? 0) >= CLEAR_PCT : shows
        const accept: readonly string[] = shows ? severity.accept : [...severity.accept, 'level']
        const verdictOf = outcome.refused ? () => 'refused' : (c: number) => outcome.judged.find((j) => j.measures.cylinder === c)!.judgement.verdict
        cases.push({ name: condition.name, severity: k + 1, recorder, wanted, accept, clear, verdict: verdictOf(AFFECTED_CYLINDER) })
        if (!outcome.refused) beside.push(...outcome.judged.filter((j) => j.measures.cylinder !== AFFECTED_CYLINDER).map((j) => j.judgement.verdict))
      }
    })
  }
}
matrix()
table()
level()

function short(verdict: string): string {
  return verdict.slice(0, 10).padStart(11)
}

function matrix(): void {
  console.log(`${cases.length} cases (${SEEDS} seeds each). Rows: what is so; columns: verdict.`)
  console.log(`${''.padEnd(22)}${VERDICTS.map(short).join('')}`)
  for (const wanted of [...new Set(cases.map((c) => c.wanted))]) {
    const own = cases.filter((c) => c.wanted === wanted)
    console.log(`${wanted.padEnd(22)}${VERDICTS.map((v) => String(own.filter((c) => c.verdict === v).length).padStart(11)).join('')}`)
  }
  console.log(`${'healthy, beside'.padEnd(22)}${VERDICTS.map((v) => String(beside.filter((b) => b === v).length).padStart(11)).join('')}`)
  const wrong = cases.filter(isWrong)
  const clear = cases.filter((c) => c.clear)
  const unsure = clear.filter((c) => !c.accept.includes(c.verdict) && !isWrong(c)).length
  console.log(`clear cases ${clear.length}: wrong ${clear.filter(isWrong).length}, borderline or not judged ${unsure}; other cases ${cases.length - clear.length}: wrong ${wrong.filter((c) => !c.clear).length}`)
}

function isWrong({ accept, verdict }: Case): boolean {
  return !accept.includes(verdict) && verdict !== 'borderline' && verdict !== 'not judged'
}

function table(): void {
  console.log(`\n${'condition'.padEnd(24)}${'recorder'.padEnd(20)}slight            plain             gross`)
  for (const name of new Set(cases.map((c) => c.name))) {
    for (const { name: recorder } of RECORDERS) {
      const cells = [1, 2, 3].map((severity) => {
        const own = cases.filter((c) => c.name === name && c.recorder === recorder && c.severity === severity)
        const right = own.filter((c) => c.accept.includes(c.verdict)).length
        const bad = own.filter(isWrong)
        return `${right}/${own.length}${bad.length ? ` WRONG ${[...new Set(bad.map((c) => c.verdict))].join(', ')}` : ''}`.padEnd(18)
      })
      console.log(`${name.padEnd(24)}${recorder.padEnd(20)}${cells.join('')}`)
    }
  }
}

function level(): void {
  const counts = new Map<string, number>()
  let cylinders = 0
  let captures = 0
  for (let seed = FIRST_LEVEL_SEED; cylinders < LEVEL; seed++) {
    const outcome = judgeSimulated(levelEngine(seed))
    captures++
    if (outcome.refused) {
      count(counts, `capture refused: ${outcome.refused.join(' ')}`)
      continue
    }
    for (const { judgement: { verdict, rule }, measures } of outcome.judged) {
      cylinders++
      count(counts, verdict)
      if (verdict !== 'level') console.log(`  seed ${seed}, cylinder ${measures.cylinder}: ${verdict} (${rule})`)
    }
  }
  console.log(`\n${cylinders} level cylinders in ${captures} captures: ${[...counts].map(([v, n]) => `${v} ${n}`).join(', ')}`)
  console.log(`called lean or falling: ${(counts.get('lean') ?? 0) + (counts.get('falling') ?? 0)}`)
}

function count(into: Map<string, number>, key: string): void {
  into.set(key, (into.get(key) ?? 0) + 1)
}
