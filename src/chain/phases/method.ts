import { sentence, sentenceOf, listOf } from '../../texts/messages.ts'
import { EARLY, LATE } from '../../metrics/slopes.ts'
import { LEVEL_SHARES } from '../../metrics/levels.ts'
import type { Instrument } from '../../metrics/instrument.ts'
import type { Limits } from '../../limits/limits.ts'
import { limit } from '../../limits/limits.ts'
import type { MethodStep } from '../../records/assemble-result.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import type { Proof } from '../../records/proof.ts'
import { RULES } from '../../verdicts/rules/index.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/** What ran: the captures as measured, the tests as read, and the settings in force. */
export interface Ran {
  captures: readonly MeasuredCapture[]
  tests: readonly TestFinding[]
  instrument: Instrument
  limits: Limits
  /** A proof the caller handed in, and the digest of the program that runs now. */
  proof: Proof | undefined
  program: string
}

/** The steps of this job in their order, each with the settings it ran with; the report prints this list. */
export function methodOf(ran: Ran): MethodStep[] {
  return [
    ...ran.captures.flatMap(captureSteps),
    levels(),
    slopes(),
    summaries(ran),
    rules(ran),
    ...logSteps(ran),
    ...proofStep(ran),
  ]
}

function captureSteps({ entry, record }: MeasuredCapture): MethodStep[] {
  const seen = [...new Set(record.channels.map((c) => c.polarity).filter((p) => p !== 'not applicable'))]
  const args = {
    file: entry.file,
    events: record.events,
    polarity: listOf(
      seen.map((p) => sentence(POLARITY[p])),
      'slash',
    ),
  }
  const read: MethodStep = {
    step: 'read',
    says: sentence('method.read', { file: entry.file, rows: record.rows, rateHz: record.sample_rate_hz }),
    settings: {
      separator: record.dialect.separator,
      decimal: record.dialect.decimal,
      preamble_lines: record.dialect.preamble_lines,
    },
  }
  const found: MethodStep = {
    step: 'find',
    says: record.sync
      ? sentence('method.find-sync', { ...args, ...record.sync })
      : sentence('method.find', args),
    settings: { polarity: seen.join(' / ') },
  }
  return [read, found]
}

const POLARITY = { positive: 'word.polarity.positive', negative: 'word.polarity.negative' } as const

const percent = (share: number) => Math.round(100 * share)

const levels = (): MethodStep => {
  const { start, mid, late } = LEVEL_SHARES
  const at = { start: percent(start), mid: percent(mid), late: percent(late) }
  return { step: 'levels', says: sentence('method.levels', at), settings: at }
}

const slopes = (): MethodStep => {
  const parts = {
    earlyFrom: percent(EARLY.from),
    earlyTo: percent(EARLY.to),
    lateFrom: percent(LATE.from),
    lateTo: percent(LATE.to),
  }
  return { step: 'slopes', says: sentence('method.slopes', parts), settings: parts }
}

const summaries = ({ instrument, limits }: Ran): MethodStep => ({
  step: 'summarise',
  says: sentence('method.summarise', {
    minEvents: limit(limits, 'minEvents'),
    voltagePct: instrument.voltageUncertaintyPercent,
    timePpm: instrument.timeUncertaintyPpm,
  }),
  settings: {
    voltage_uncertainty_percent: instrument.voltageUncertaintyPercent,
    time_uncertainty_ppm: instrument.timeUncertaintyPpm,
  },
})

const rules = ({ limits }: Ran): MethodStep => ({
  step: 'judge',
  says: sentence('method.judge', { rules: RULES.length, limitPct: limit(limits, 'lateRisePct') }),
  settings: { rules: RULES.map((r) => r.id).join(' ') },
})

function logSteps({ tests }: Ran): MethodStep[] {
  if (tests.length === 0) return []
  const traced = tests.filter((t) => t.step === 'spray' && t.trace).length
  return [
    {
      step: 'tests',
      says: sentence(traced ? 'method.tests-traced' : 'method.tests', { tests: tests.length, traced }),
      settings: {},
    },
  ]
}

/** Quotes a proof that was handed in; one that fails, or was made by another program, is quoted as that. */
function proofStep({ proof, program }: Ran): MethodStep[] {
  if (proof === undefined) return []
  const key = !proof.holds
    ? 'method.proof-fails'
    : proof.program.sha256 === program
      ? 'method.proof'
      : 'method.proof-other'
  const errorOf = (figure: string): number => proof.worst.find((w) => w.figure === figure)?.error ?? 0
  const args = {
    date: proof.date,
    version: proof.program.version,
    captures: proof.captures.length,
    burnPct: errorOf('burnErrorPct'),
    midPct: errorOf('midErrorPct'),
    riseKv: errorOf('lateRiseErrorKv'),
  }
  const errors = Object.fromEntries(proof.worst.map((w) => [w.figure, w.error]))
  return [
    {
      step: 'proof',
      says: sentenceOf(key, args),
      settings: { date: proof.date, program: proof.program.sha256, ...errors },
    },
  ]
}
