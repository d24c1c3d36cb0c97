import type { CylinderMeasures, Summary } from '../metrics/figures.ts'
import { binomialInterval } from '../maths/binomial-interval.ts'
import { median } from '../maths/median.ts'
import type { AbsenceCode, Interval } from '../units/measured.ts'
import type { Available, Evidence } from './evidence.ts'

/** Fewest other cylinders a comparison within the engine may rest on: one other cannot say which of the two is odd. */
const MIN_OTHERS = 2

/**
 * The evidence on one cylinder, from its own summaries and from those of the other cylinders of the same capture group.
 *
 * @param own     the cylinder
 * @param others  other cylinders measured the same way (same stage, condition and kind of pickup)
 */
export function gatherEvidence(own: CylinderMeasures, others: readonly CylinderMeasures[]): Evidence {
  const { figures } = own
  const noLine = own.misfires
  const total = own.events
  const medianOf = (pick: (m: CylinderMeasures) => number | undefined) => {
    const values = others.map(pick).filter((v) => v !== undefined)
    return values.length >= MIN_OTHERS ? median(values) : undefined
  }
  return {
    lateRisePct: available(figures.lateRisePct),
    firingKv: available(figures.firingKv),
    burnMs: available(figures.burnMs),
    eventCount: { ok: true, interval: { value: total, low: total, high: total, unit: '1' } },
    noLineSharePct: total > 0 ? { ok: true, interval: sharePct(noLine, total) } : missing('too-few-events'),
    startExcessPct: relativePct(figures.startKv, medianOf((m) => valueOf(m.figures.startKv))),
    burnExcessPct: relativePct(figures.burnMs, medianOf((m) => valueOf(m.figures.burnMs))),
    firingExcessKv: shifted(figures.firingKv, medianOf((m) => valueOf(m.figures.firingKv))),
    earlyDropExcessPct: earlyDropExcess(own, medianOf(earlyDropPct)),
  }
}

const missing = (why: AbsenceCode): Available => ({ ok: false, why })
const valueOf = (s: Summary): number | undefined => (s.ok ? s.value : undefined)

function available(summary: Summary): Available {
  return summary.ok
    ? { ok: true, interval: { value: summary.value, low: summary.low, high: summary.high, unit: summary.unit } }
    : missing(summary.why)
}

/** Exact (Clopper-Pearson) 95 % interval of a share, in %. */
function sharePct(hits: number, total: number): Interval<'%'> {
  const { low, high } = binomialInterval({ hits, total })
  return { value: (100 * hits) / total, low: 100 * low, high: 100 * high, unit: '%' }
}

/** Excess over a reference, % of the reference. The instrument's gain is common to both and cancels nearly; kept in, to be safe. */
function relativePct(summary: Summary, reference: number | undefined): Available {
  if (!summary.ok) return missing(summary.why)
  if (reference === undefined || reference === 0) return missing('not-applicable')
  const pct = (v: number) => 100 * (v / reference - 1)
  return { ok: true, interval: { value: pct(summary.value), low: pct(summary.low), high: pct(summary.high), unit: '%' } }
}

function shifted(summary: Summary, reference: number | undefined): Available {
  if (!summary.ok) return missing(summary.why)
  if (reference === undefined) return missing('not-applicable')
  const { value, low, high, unit } = summary
  return { ok: true, interval: { value: value - reference, low: low - reference, high: high - reference, unit } }
}

/** Fall from start to middle as a share of the start level, %. */
function earlyDropPct(m: CylinderMeasures): number | undefined {
  const { startKv, earlyChangeKv } = m.figures
  return startKv.ok && earlyChangeKv.ok ? (-100 * earlyChangeKv.value) / startKv.value : undefined
}

function earlyDropExcess(own: CylinderMeasures, reference: number | undefined): Available {
  const { startKv, earlyChangeKv } = own.figures
  if (!startKv.ok) return missing(startKv.why)
  if (!earlyChangeKv.ok) return missing(earlyChangeKv.why)
  if (reference === undefined) return missing('not-applicable')
  const excess = (changeKv: number) => (-100 * changeKv) / startKv.value - reference
  return {
    ok: true,
    interval: { value: excess(earlyChangeKv.value), low: excess(earlyChangeKv.high), high: excess(earlyChangeKv.low), unit: '%' },
  }
}
