import { median } from '../../src/maths/median.ts'
import {
  COVERED,
  held,
  runTrial,
  TRIAL_RECORDERS,
  truthTable,
  type Held,
} from '../support/coverage-trials.ts'
import { longRunTrial } from '../support/long-run-trials.ts'
import { gatherParts, hand, partOfBench } from './parts.ts'

/**
 * Coverage of the stated 95 % intervals by the whole measuring chain, from samples to cylinder medians: how often they
 * hold the truth, by figure and recorder (what a trial and the truth are: tests/support/coverage-trials.ts).
 *
 * Beside it, coverage with the instrument's own part left out, the median half width and the median bias.
 *
 *   npm run bench:coverage     BURNLINE_CAPTURES (200) captures from seed BURNLINE_SEED (1) on, BENCH_JOBS (2) processes
 */
const CAPTURES = Number(process.env['BURNLINE_CAPTURES'] ?? 200)
const FIRST_SEED = Number(process.env['BURNLINE_SEED'] ?? 1)
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

const part = partOfBench()
if (part) runPart(part)
else await gather()

function runPart({ part: own, of }: { part: number; of: number }): void {
  const truthOf = truthTable()
  for (let run = own - 1; run < CAPTURES; run += of) {
    const stated = runTrial(FIRST_SEED + run)
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

/** Intervals of late rise where neighbouring events are alike: the truth is the median reached in the long run. */
function tellLongRuns(): void {
  console.log(
    '\ncorrelation   n   held %  held % as independent   width   times   lean at 35 %   level at 10 %   recording only %',
  )
  for (const correlation of [0, 0.5, 0.8, 0.9])
    for (const n of [15, 20, 30, 60]) {
      const t = longRunTrial({ correlation, n }, Math.max(50, CAPTURES), 1000 + FIRST_SEED)
      const pct = (count: number): string => ((100 * count) / t.of).toFixed(1)
      console.log(
        [
          String(correlation).padStart(11),
          String(n).padStart(3),
          t.heldPct.toFixed(1).padStart(8),
          t.plainPct.toFixed(1).padStart(22),
          (t.width / t.of).toFixed(1).padStart(7),
          (t.width / t.plainWidth).toFixed(2).padStart(7),
          pct(t.lean).padStart(14),
          pct(t.level).padStart(15),
          pct(t.short).padStart(18),
        ].join(' '),
      )
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
