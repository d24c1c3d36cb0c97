import type { EventWave } from '../ignition/event.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/** What the doubt about a pickup's droop leaves in the levels of one event, kV: it moves all of them together. */
export interface DroopDoubt {
  firing: number
  start: number
  mid: number
  late: number
}

/** Shares of the burn at which the levels are read. */
const SHARES = { start: 0.1, mid: 0.5, late: 0.9 } as const

/**
 * Doubt about the droop in the levels of an event: its standard uncertainty times the area under the event up to there.
 * @source a first-order high-pass; JCGM 100:2008, 5.1.2
 */
export function droopDoubt({ kv, sampleS, breakdown, sparkEnd, droopU = 0 }: EventWave): DroopDoubt {
  if (droopU === 0 || sparkEnd === undefined) return { firing: 0, start: 0, mid: 0, late: 0 }
  const at = (share: number): number => Math.round(breakdown + share * (sparkEnd - breakdown))
  const ends = [Math.round(breakdown), at(SHARES.start), at(SHARES.mid), at(SHARES.late)]
  let area = 0
  let i = 0
  const [firing, start, mid, late] = ends.map((end) => {
    for (; i < Math.min(end, kv.length); i++) area += kv[i]! * sampleS
    return droopU * area
  })
  return { firing: firing!, start: start!, mid: mid!, late: late! }
}

/** A figure with the doubt added, in the figure's unit. The sign falls out. */
export function withDroop<F extends EventFigure<'kV'> | EventFigure<'%'>>(figure: F, u: number): F {
  if (!figure.ok || u === 0) return figure
  return withBudget(figure.value, figure.unit, [
    ...(figure.budget ?? []),
    { source: 'method', u: Math.abs(u) },
  ]) as unknown as F
}
