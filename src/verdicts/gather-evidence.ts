import { limit, type Limits } from '../limits/limits.ts'
import { binomialInterval } from '../maths/binomial-interval.ts'
import { median } from '../maths/median.ts'
import type { CylinderMeasures, Summary } from '../metrics/figures.ts'
import type { AbsenceCode, Interval, Unit } from '../units/measured.ts'
import type { Available, Evidence, PickupKind } from './evidence.ts'
import type { AgainstFellows } from './fellows/rise-against-fellows.ts'

/**
 * Fewest other cylinders for the figures of the line. One is enough: resistance outside raises the start and steepens
 * the fall, both at once, and nothing that is wrong with one other cylinder makes a sound one look so.
 */
const LEAST_OTHERS = 1
/** The two cylinders of a whole coil share its circuit: there a second coil is needed. */
const LEAST_OTHERS_WHOLE_COIL = 2
/** One other cylinder cannot say which of the two fires or burns oddly. */
const LEAST_OTHERS_MEDIAN = 2

/** What gathering needs to know beside the figures. */
export interface GatherAbout {
  pickup: PickupKind
  /** False where a pickup of unknown ratio makes kV mean nothing. */
  kvKnown: boolean
  sampleRateHz?: number | undefined
  /** Late rise against the fellows. */
  against: AgainstFellows
  limits: Limits
}

/**
 * The evidence on one cylinder, from its own summaries and from those of the other cylinders of the same capture group.
 *
 * @param own     the cylinder
 * @param others  other cylinders measured the same way (same stage, condition and kind of pickup)
 */
export function gatherEvidence(
  own: CylinderMeasures,
  others: readonly CylinderMeasures[],
  about: GatherAbout,
): Evidence {
  const { figures } = own
  const missed = missedTurns(own, about)
  const turns = own.events + missed
  const medianOf = (pick: (m: CylinderMeasures) => number | undefined, least: number) => {
    const values = others.map(pick).filter((v) => v !== undefined)
    return values.length >= least ? median(values) : undefined
  }
  const wholeCoil = about.pickup === 'whole coil'
  const least = wholeCoil ? LEAST_OTHERS_WHOLE_COIL : LEAST_OTHERS
  const kv = (figure: Available): Available => (about.kvKnown ? figure : missing('not-applicable'))
  return {
    lateRisePct: available(figures.lateRisePct),
    againstLevelPct: about.against.fellowsLevel ? about.against.difference : missing('not-applicable'),
    firingKv: kv(available(figures.firingKv)),
    burnMs: available(figures.burnMs),
    eventCount: exactly(turns),
    lineCount: exactly(own.lines ?? own.events - own.misfires),
    wentOutSharePct:
      turns > 0 ? { ok: true, interval: sharePct(own.wentOut ?? 0, turns) } : missing('too-few-events'),
    noLineSharePct:
      turns > 0 ? { ok: true, interval: sharePct(own.misfires + missed, turns) } : missing('too-few-events'),
    ...topEvidence(own, {
      firing: medianOf((m) => leastOf(m.figures.firingKv), LEAST_OTHERS),
      firingHigh: medianOf((m) => mostOf(m.figures.firingKv), LEAST_OTHERS),
      kv,
    }),
    startExcessPct: relativePct(
      figures.startKv,
      medianOf((m) => valueOf(m.figures.startKv), least),
    ),
    burnExcessPct: relativePct(
      figures.burnMs,
      medianOf((m) => valueOf(m.figures.burnMs), LEAST_OTHERS_MEDIAN),
    ),
    earlyDropExcessPct: shifted(
      asSummary(earlyDrop(own)),
      medianOf((m) => valueOf(asSummary(earlyDrop(m))), least),
    ),
    earlyDropPct: wholeCoil ? missing('not-applicable') : earlyDrop(own),
    fallsFirstPct: wholeCoil ? missing('not-applicable') : fallsFirst(own),
  }
}

/** Turns without an event; none where the recorder is so slow that it may have lost them itself. */
function missedTurns(
  { missing: count = 0 }: CylinderMeasures,
  { sampleRateHz, limits }: GatherAbout,
): number {
  return sampleRateHz === undefined || sampleRateHz >= 1000 * limit(limits, 'missingLeastKhz') ? count : 0
}

const missing = (why: AbsenceCode): Available => ({ ok: false, why })
const present = (value: number, low: number, high: number, unit: Unit): Available => ({
  ok: true,
  interval: { value, low, high, unit },
})
const exactly = (count: number): Available => present(count, count, count, '1')
type Spread =
  { ok: true; value: number; low: number; high: number; unit: Unit } | { ok: false; why: AbsenceCode }
const valueOf = (s: Spread): number | undefined => (s.ok ? s.value : undefined)
/** A firing voltage known from below only lies anywhere above its bound. */
const leastOf = (s: Summary): number | undefined => (s.ok ? s.value : s.atLeast)
const mostOf = (s: Summary): number | undefined =>
  s.ok ? s.high : s.atLeast === undefined ? undefined : Infinity
const asSummary = (a: Available): Spread => (a.ok ? { ok: true, ...a.interval } : a)

const available = (s: Summary): Available => (s.ok ? present(s.value, s.low, s.high, s.unit) : missing(s.why))

/** Exact (Clopper-Pearson) 95 % interval of a share, in %. */
function sharePct(hits: number, total: number): Interval<'%'> {
  const { low, high } = binomialInterval({ hits, total })
  return { value: (100 * hits) / total, low: 100 * low, high: 100 * high, unit: '%' }
}

/** Excess over a reference, % of the reference. The instrument's gain is common to both and cancels nearly; kept in, to be safe. */
function relativePct(summary: Spread, reference: number | undefined): Available {
  if (!summary.ok) return missing(summary.why)
  if (reference === undefined || reference === 0) return missing('not-applicable')
  const pct = (v: number) => 100 * (v / reference - 1)
  return present(pct(summary.value), pct(summary.low), pct(summary.high), '%')
}

function shifted(summary: Spread, reference: number | undefined): Available {
  if (!summary.ok) return missing(summary.why)
  if (reference === undefined) return missing('not-applicable')
  const { value, low, high, unit } = summary
  return present(value - reference, low - reference, high - reference, unit)
}

type TopEvidence = Pick<
  Evidence,
  'noLineTopKv' | 'noLineTopExcessKv' | 'noLineTopExcessPct' | 'noLineTopLastsMs'
>

/**
 * How high the voltage goes where nothing burns. The others' firing voltage is taken at the upper end of its interval
 * for the lower end of the excess, since a slow recorder loses their tops but not the broad one of an open circuit.
 */
function topEvidence(
  { noLineTop: top }: CylinderMeasures,
  {
    firing,
    firingHigh,
    kv,
  }: { firing: number | undefined; firingHigh: number | undefined; kv: (figure: Available) => Available },
): TopEvidence {
  const none = missing('not-applicable')
  if (!top)
    return { noLineTopKv: none, noLineTopExcessKv: none, noLineTopExcessPct: none, noLineTopLastsMs: none }
  const compared = firing !== undefined && firingHigh !== undefined && firing > 0
  return {
    noLineTopKv: kv(present(top.value, top.low, top.high, 'kV')),
    noLineTopLastsMs: present(top.lastsMs, top.lastsMs, top.lastsMs, 'ms'),
    noLineTopExcessKv: compared
      ? kv(present(top.value - firing, top.low - firingHigh, top.high - firing, 'kV'))
      : none,
    noLineTopExcessPct: compared
      ? present(
          100 * (top.value / firing - 1),
          100 * (top.low / firingHigh - 1),
          100 * (top.high / firing - 1),
          '%',
        )
      : none,
  }
}

/** Fall from start to middle as a share of the start level, %. */
function earlyDrop({ figures: { startKv, earlyChangeKv } }: CylinderMeasures): Available {
  if (!startKv.ok) return missing(startKv.why)
  if (!earlyChangeKv.ok) return missing(earlyChangeKv.why)
  const pct = (changeKv: number) => (-100 * changeKv) / startKv.value
  return present(pct(earlyChangeKv.value), pct(earlyChangeKv.high), pct(earlyChangeKv.low), '%')
}

/** Fall from start to middle less the fall from middle to late, % of the start level; the parts joined as independent. */
function fallsFirst({ figures: { startKv, earlyChangeKv, lateRiseKv } }: CylinderMeasures): Available {
  if (!startKv.ok) return missing(startKv.why)
  if (!earlyChangeKv.ok) return missing(earlyChangeKv.why)
  if (!lateRiseKv.ok) return missing(lateRiseKv.why)
  const pct = 100 / startKv.value
  const value = pct * (lateRiseKv.value - earlyChangeKv.value)
  const down = pct * Math.hypot(lateRiseKv.value - lateRiseKv.low, earlyChangeKv.high - earlyChangeKv.value)
  const up = pct * Math.hypot(lateRiseKv.high - lateRiseKv.value, earlyChangeKv.value - earlyChangeKv.low)
  return present(value, value - down, value + up, '%')
}
