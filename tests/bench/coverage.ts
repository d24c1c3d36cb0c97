import { median } from '../../src/maths/median.ts'
import {
  AC_ONE_IN,
  COVERED,
  held,
  runTrial,
  TRIAL_RECORDERS,
  truthTable,
  type Held,
} from '../support/coverage-trials.ts'
import { longRunTrial, type LongRunKind } from '../support/long-run-trials.ts'
import { gatherParts, hand, partOfBench } from './parts.ts'

/**
 * Coverage of the stated 95 % intervals by the whole measuring chain, from samples to cylinder medians: how often they
 * hold the truth, by figure and recorder (what a trial and the truth are: tests/support/coverage-trials.ts).
 *
 * Beside it, coverage with the instrument's own part left out, the median half width and the median bias.
 *
 *   npm run bench:coverage     BURNLINE_CAPTURES (200) captures from seed BURNLINE_SEED (1) on, of which one in
 *                              BURNLINE_AC_ONE_IN (7) has an AC-coupled pickup, BENCH_JOBS (2) processes
 */
const CAPTURES = Number(process.env['BURNLINE_CAPTURES'] ?? 200)
const FIRST_SEED = Number(process.env['BURNLINE_SEED'] ?? 1)
const ONE_IN = Number(process.env['BURNLINE_AC_ONE_IN'] ?? AC_ONE_IN)
/** The table so far is printed after so many captures. */
const TELL_EVERY = 200
/** Row of the table for AC-coupled pickups on any recorder. */
const AC = 'AC-coupled'
interface Row extends Held {
  figure: string
  recorder: string
  acCoupled: boolean
}
type Result = { refused: true } | { rows: Row[] }

/** Engines of the trials of the long run: independent and alike, four and six cylinders, alone and moving together. */
const LONG_RUNS: readonly LongRunKind[] = [
  ...[0, 0.5, 0.8, 0.9].flatMap((correlation) => [15, 20, 30, 60].map((n) => ({ correlation, n }))),
  { correlation: 0.8, n: 20, cylinders: 4 },
  { correlation: 0.8, n: 20, cylinders: 1 },
  { correlation: 0.8, n: 20, together: 0.5 },
  { correlation: 0.8, n: 20, together: 1 },
  { correlation: 0, n: 20, unit: 'kV' },
  { correlation: 0.8, n: 20, unit: 'kV' },
]

const part = partOfBench()
if (part) runPart(part)
else await gather()

function runPart({ part: own, of }: { part: number; of: number }): void {
  const truthOf = truthTable()
  for (let run = own - 1; run < CAPTURES; run += of) {
    const stated = runTrial(FIRST_SEED + run, ONE_IN)
    hand(
      stated === 'refused'
        ? { refused: true }
        : ({
            rows: stated.map((s) => ({
              figure: s.figure,
              recorder: s.recorder,
              acCoupled: s.droopS < Infinity,
              ...held(s, truthOf(s)),
            })),
          } satisfies Result),
    )
  }
}

async function gather(): Promise<void> {
  const rows: Row[] = []
  let captures = 0
  let refused = 0
  await gatherParts<Result>('coverage', (result) => {
    captures++
    if ('refused' in result) refused++
    else rows.push(...result.rows)
    if (captures % TELL_EVERY === 0 || captures === CAPTURES) report(rows, { captures, refused })
  })
  tellLongRuns()
}

/** Intervals where neighbouring events are alike: the truth is the median reached in the long run. */
function tellLongRuns(): void {
  const heads = [
    'held',
    'without',
    'independent',
    'above',
    'below',
    'width',
    'times',
    'lean 35',
    'level 10',
    'short',
  ]
  console.log(
    `\nlong run, %; without the instrument; as of independent events; wholly above and below a limit at the truth\n${''.padEnd(46)}${heads.map((h) => h.padStart(12)).join('')}`,
  )
  for (const kind of LONG_RUNS) {
    const t = longRunTrial(kind, Math.max(50, CAPTURES), 1000 + FIRST_SEED)
    const pct = (count: number): string => ((100 * count) / t.of).toFixed(1)
    const cells = [
      pct(t.held),
      pct(t.heldWithout),
      pct(t.plain),
      pct(t.above),
      pct(t.below),
      (t.width / t.of).toFixed(1),
      (t.width / t.plainWidth).toFixed(2),
      pct(t.lean),
      pct(t.level),
      pct(t.short),
    ]
    const { correlation, n, cylinders = 6, together = 0, unit = '%' } = kind
    const name = `r ${correlation}, n ${n}, ${cylinders} cylinders, together ${together}, ${unit}`
    console.log(`${name.padEnd(46)}${cells.map((c) => c.padStart(12)).join('')}`)
  }
}

function report(rows: readonly Row[], { captures, refused }: { captures: number; refused: number }): void {
  console.log(`captures ${captures} of ${CAPTURES}, refused ${refused}, intervals ${rows.length}`)
  console.log('figure       recorder              n  held %  without instrument  half width      bias')
  for (const figure of COVERED) {
    for (const recorder of [...TRIAL_RECORDERS.map((r) => r.name), AC, 'all']) {
      const isOf = (r: Row): boolean =>
        recorder === 'all' || (recorder === AC ? r.acCoupled : r.recorder === recorder)
      const own = rows.filter((r) => r.figure === figure && isOf(r))
      if (own.length === 0) continue
      const share = (held: (r: Row) => boolean): string =>
        ((100 * own.filter(held).length) / own.length).toFixed(1)
      console.log(
        [
          figure.padEnd(11),
          recorder.padEnd(15),
          String(own.length).padStart(6),
          share((r) => r.held).padStart(6),
          share((r) => r.heldWithout).padStart(18),
          median(own.map((r) => r.half))!
            .toFixed(4)
            .padStart(10),
          median(own.map((r) => r.bias))!
            .toFixed(4)
            .padStart(8),
        ].join('  '),
      )
    }
  }
}
