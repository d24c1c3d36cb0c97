import type { EventWave } from '../ignition/event.ts'
import { K95 } from '../maths/normal.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'

/**
 * What one more unit of droop would add to the levels of one event: the area under it up to there, kV s. It moves all
 * levels together.
 */
export interface DroopAreas {
  firing: number
  start: number
  mid: number
  late: number
}

/** Shares of the burn at which the levels are read. */
const SHARES = { start: 0.1, mid: 0.5, late: 0.9 } as const

/** @source a first-order high-pass; JCGM 100:2008, 5.1.2 */
export function droopAreas({ kv, sampleS, breakdown, sparkEnd, droop }: EventWave): DroopAreas {
  if (droop === undefined || sparkEnd === undefined) return { firing: 0, start: 0, mid: 0, late: 0 }
  const at = (share: number): number => Math.round(breakdown + share * (sparkEnd - breakdown))
  const ends = [Math.round(breakdown), at(SHARES.start), at(SHARES.mid), at(SHARES.late)]
  let area = 0
  let i = 0
  const [firing, start, mid, late] = ends.map((end) => {
    for (; i < Math.min(end, kv.length); i++) area += kv[i]! * sampleS
    return area
  })
  return { firing: firing!, start: start!, mid: mid!, late: late! }
}

/**
 * A figure with the doubt about the droop added. It may lie to one side alone: no pickup fades backwards.
 * @param perUnit  what one more unit of droop adds to the figure, in its unit times s
 */
export function withDroop<F extends EventFigure<'kV'> | EventFigure<'%'>>(
  figure: F,
  perUnit: number,
  droop: EventWave['droop'],
): F {
  if (!figure.ok || perUnit === 0 || droop === undefined) return figure
  const [down, up] =
    perUnit > 0 ? [perUnit * droop.down, perUnit * droop.up] : [-perUnit * droop.up, -perUnit * droop.down]
  return withBudget(figure.value, figure.unit, [
    ...(figure.budget ?? []),
    { source: 'pickup', u: (down + up) / (2 * K95), sides: { down, up } },
  ]) as unknown as F
}
