import {
  AFFECTED_CYLINDER,
  conditionCapture,
  CONDITIONS,
  RECORDERS,
  type Condition,
  type Reading,
  type Severity,
} from '../../src/model/conditions.ts'
import type { Recorder } from '../../src/model/recorder.ts'
import { judgeSimulated } from '../support/judge-simulated.ts'
import { levelEngine } from '../support/level-engines.ts'
import { judgeRun, RUN_KINDS, type RunCylinder } from '../support/running-captures.ts'
import { gatherParts, hand, partOfBench } from './parts.ts'
import { tellRuns } from './verdict-runs.ts'

/**
 * How often the whole chain, from samples to verdict, says what is so: simulated captures, all invented (src/model).
 *
 * 1. Every condition in three severities on two recorders, one cylinder of four affected: the confusion matrix.
 *    Clear: the true late rise of a lean or falling cylinder is at least twice the limit; every case of another kind,
 *    but for an intermittent open circuit or dropped spark of which the record holds not one.
 *    Wrong: a verdict that is neither accepted, nor `borderline`, nor `not judged`; for a clear case `borderline` is
 *    counted apart.
 * 2. Cylinders with their mixture in order, over engines, pickups, recorders, speeds and noise: how many are called
 *    lean or falling. Goal: none of 10 000.
 *
 * 3. Engines that hunt, start or are blipped, and records each gate is there for (tests/support/running-captures.ts):
 *    of the cylinders that are clear by truth, how many are called, refused and called wrong, the median width of the
 *    interval, and what each gate would have got right and wrong had it let through.
 *
 *   npm run bench:verdicts      VERDICT_RUNS (20) captures a run; VERDICT_SEEDS (10) seeds a case, VERDICT_LEVEL (10000) level cylinders from seed VERDICT_FIRST (1) on,
 *                               BENCH_JOBS (2) processes
 */
const SEEDS = Number(process.env['VERDICT_SEEDS'] ?? 10)
const RUNS = Number(process.env['VERDICT_RUNS'] ?? 20)
const LEVEL = Number(process.env['VERDICT_LEVEL'] ?? 10_000)
const FIRST_LEVEL_SEED = Number(process.env['VERDICT_FIRST'] ?? 1)
/** Twice the limit on the late rise, %. */
const CLEAR_PCT = 40
const VERDICTS = [
  'level',
  'lean',
  'falling',
  'external resistance',
  'open secondary',
  'misfiring',
  'borderline',
  'not judged',
  'refused',
] as const

interface Case {
  name: string
  severity: number
  recorder: string
  wanted: Reading
  accept: readonly string[]
  clear: boolean
  verdict: string
}

/** Verdict on one simulated level cylinder, and the rule behind it; or a whole capture refused. */
type LevelResult = { cylinders: { cylinder: number; verdict: string; rule: string }[] } | { refused: string }
/** A case with the verdicts on the healthy cylinders beside the affected one, or one level engine. */
type Result = { case: Case; beside: string[] } | { seed: number; level: LevelResult } | { run: RunCylinder[] }

const cases: Case[] = []
const beside: string[] = []
const runs: RunCylinder[] = []
const part = partOfBench()
if (part) runPart(part)
else await gather()

function runPart({ part: own, of }: { part: number; of: number }): void {
  const all = RECORDERS.flatMap(({ name: recorder, recorder: model }) =>
    CONDITIONS.flatMap((condition) =>
      condition.severities.flatMap((severity, k) =>
        Array.from({ length: SEEDS }, (_, i) => ({ recorder, model, condition, severity, k, seed: i + 1 })),
      ),
    ),
  )
  all.forEach((one, i) => {
    if (i % of === own - 1) hand(judgeCase(one))
  })
  RUN_KINDS.forEach((kind, k) => {
    for (let i = own - 1; i < RUNS; i += of)
      hand({ run: judgeRun(kind, 1000 * (k + 1) + i) } satisfies Result)
  })
  let cylinders = 0
  for (let seed = FIRST_LEVEL_SEED + own - 1; cylinders < LEVEL / of; seed += of) {
    const outcome = judgeSimulated(levelEngine(seed))
    const level: LevelResult = outcome.refused
      ? { refused: outcome.refused.join(' ') }
      : {
          cylinders: outcome.judged.map(({ measures: { cylinder }, judgement: { verdict, rule } }) => ({
            cylinder,
            verdict,
            rule,
          })),
        }
    if ('cylinders' in level) cylinders += level.cylinders.length
    hand({ seed, level } satisfies Result)
  }
}

function judgeCase({
  recorder,
  model,
  condition,
  severity,
  k,
  seed,
}: {
  recorder: string
  model: Recorder
  condition: Condition
  severity: Severity
  k: number
  seed: number
}): Result {
  const outcome = judgeSimulated(
    conditionCapture(severity, condition.name, { recorder: model, seed: 100 * seed + k }),
  )
  const wanted = severity.accept[0]!
  const rise = outcome.refused ? undefined : outcome.trueLateRisePct.get(AFFECTED_CYLINDER)
  // An intermittent fault that luck has kept out of a record altogether cannot be seen in it.
  const shows =
    (wanted !== 'open secondary' && wanted !== 'misfiring') ||
    outcome.refused !== undefined ||
    (outcome.trueNoLines.get(AFFECTED_CYLINDER) ?? 0) > 0 ||
    (outcome.trueLostSparks.get(AFFECTED_CYLINDER) ?? 0) > 0
  const clear = wanted === 'lean' || wanted === 'falling' ? Math.abs(rise ?? 0) >= CLEAR_PCT : shows
  const accept: readonly string[] = shows ? severity.accept : [...severity.accept, 'level']
  const verdict = outcome.refused
    ? 'refused'
    : outcome.judged.find((j) => j.measures.cylinder === AFFECTED_CYLINDER)!.judgement.verdict
  return {
    case: { name: condition.name, severity: k + 1, recorder, wanted, accept, clear, verdict },
    beside: outcome.refused
      ? []
      : outcome.judged
          .filter((j) => j.measures.cylinder !== AFFECTED_CYLINDER)
          .map((j) => j.judgement.verdict),
  }
}

async function gather(): Promise<void> {
  const levels = { counts: new Map<string, number>(), cylinders: 0, captures: 0 }
  await gatherParts<Result>('verdicts', (result) => {
    if ('level' in result) return countLevel(levels, result)
    if ('run' in result) {
      runs.push(...result.run)
      return
    }
    cases.push(result.case)
    beside.push(...result.beside)
    if (cases.length === RECORDERS.length * CONDITIONS.length * 3 * SEEDS) {
      matrix()
      table()
    }
  })
  tellRuns(runs)
  tellLevels(levels)
}

function short(verdict: string): string {
  return verdict.slice(0, 10).padStart(11)
}

function matrix(): void {
  console.log(`${cases.length} cases (${SEEDS} seeds each). Rows: what is so; columns: verdict.`)
  console.log(`${''.padEnd(22)}${VERDICTS.map(short).join('')}`)
  for (const wanted of [...new Set(cases.map((c) => c.wanted))]) {
    const own = cases.filter((c) => c.wanted === wanted)
    console.log(
      `${wanted.padEnd(22)}${VERDICTS.map((v) => String(own.filter((c) => c.verdict === v).length).padStart(11)).join('')}`,
    )
  }
  console.log(
    `${'healthy, beside'.padEnd(22)}${VERDICTS.map((v) => String(beside.filter((b) => b === v).length).padStart(11)).join('')}`,
  )
  const wrong = cases.filter(isWrong)
  const clear = cases.filter((c) => c.clear)
  const unsure = clear.filter((c) => !c.accept.includes(c.verdict) && !isWrong(c)).length
  console.log(
    `clear cases ${clear.length}: wrong ${clear.filter(isWrong).length}, borderline or not judged ${unsure}; other cases ${cases.length - clear.length}: wrong ${wrong.filter((c) => !c.clear).length}`,
  )
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
        return `${right}/${own.length}${bad.length ? ` WRONG ${[...new Set(bad.map((c) => c.verdict))].join(', ')}` : ''}`.padEnd(
          18,
        )
      })
      console.log(`${name.padEnd(24)}${recorder.padEnd(20)}${cells.join('')}`)
    }
  }
}

interface Levels {
  counts: Map<string, number>
  cylinders: number
  captures: number
}

function countLevel(levels: Levels, { seed, level }: { seed: number; level: LevelResult }): void {
  levels.captures++
  if ('refused' in level) return count(levels.counts, `capture refused: ${level.refused}`)
  for (const { cylinder, verdict, rule } of level.cylinders) {
    levels.cylinders++
    count(levels.counts, verdict)
    if (verdict !== 'level') console.log(`  seed ${seed}, cylinder ${cylinder}: ${verdict} (${rule})`)
  }
  if (levels.captures % 250 === 0) tellLevels(levels)
}

function tellLevels({ counts, cylinders, captures }: Levels): void {
  console.log(
    `\n${cylinders} level cylinders in ${captures} captures: ${[...counts].map(([v, n]) => `${v} ${n}`).join(', ')}`,
  )
  console.log(`called lean or falling: ${(counts.get('lean') ?? 0) + (counts.get('falling') ?? 0)}`)
}

function count(into: Map<string, number>, key: string): void {
  into.set(key, (into.get(key) ?? 0) + 1)
}
