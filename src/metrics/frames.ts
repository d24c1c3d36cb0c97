import { mad, MAD_TO_SD } from '../maths/mad.ts'

/** An event as far as frames are concerned. */
interface Framed {
  frame?: number | undefined
}

/** Whether a record is parted into frames. */
export const inFrames = (events: readonly Framed[]): boolean => events.some((e) => e.frame !== undefined)

/** Events frame by frame, in the order in which the frames are met; one group where the record is one. */
export function byFrame<E extends Framed>(events: readonly E[]): E[][] {
  const groups = new Map<number | undefined, E[]>()
  for (const event of events) {
    const own = groups.get(event.frame)
    if (own) own.push(event)
    else groups.set(event.frame, [event])
  }
  return [...groups.values()]
}

/** What a frame shows of the speed: turns of the crankshaft and the time they took. */
export interface FrameTurns {
  fromS: number
  spanS: number
  turns: number
}

/** Successive firings whose spacing strays by more than this share of its middle are not all there. */
const EVEN_WITHIN = 0.25

/**
 * Turns between the first and the last firing of a frame, counted by the firing order from cylinder to cylinder.
 * Undefined with fewer than two told firings, or where steps and times contradict each other: then one is missing.
 *
 * @param firing         of one frame, in order of time
 * @param turnsPerCycle  turns of the crankshaft in a working cycle
 */
export function frameTurns(
  firing: readonly { breakdownS: number; cylinder: number | undefined }[],
  { firingOrder, turnsPerCycle }: { firingOrder: readonly number[]; turnsPerCycle: number },
): FrameTurns | undefined {
  const told = firing.flatMap(({ cylinder, breakdownS }) => {
    const place = cylinder === undefined ? -1 : firingOrder.indexOf(cylinder)
    return place < 0 ? [] : [{ place, atS: breakdownS }]
  })
  const cycle = firingOrder.length
  const steps = told
    .slice(1)
    .map(({ place, atS }, i) => ({
      count: (((place - told[i]!.place) % cycle) + cycle) % cycle || cycle,
      lengthS: atS - told[i]!.atS,
    }))
  const count = steps.reduce((sum, s) => sum + s.count, 0)
  const spanS = steps.reduce((sum, s) => sum + s.lengthS, 0)
  if (count === 0 || !(spanS > 0)) return undefined
  const even = steps.every((s) => Math.abs(s.lengthS / s.count / (spanS / count) - 1) < EVEN_WITHIN)
  return even ? { fromS: told[0]!.atS, spanS, turns: (count * turnsPerCycle) / cycle } : undefined
}

/** Frames in which as many turns took several times as long as in most hold a firing less than they should. */
const OFF_WITHIN = 0.35

/** Turns of every frame that shows some; frames far from the others' speed by their own scatter are left out. */
export function turnsOfFrames(
  firing: readonly (Framed & { breakdownS: number; cylinder: number | undefined })[],
  about: { firingOrder: readonly number[]; turnsPerCycle: number },
): Map<number | undefined, FrameTurns> {
  const found = byFrame(firing).flatMap((own) => {
    const turns = frameTurns(own, about)
    return turns ? [[own[0]!.frame, turns] as const] : []
  })
  const speeds = found.map(([, { turns, spanS }]) => turns / spanS)
  const usual = speeds.toSorted((a, b) => a - b)[speeds.length >> 1] ?? 0
  const scatter = MAD_TO_SD * (mad(speeds) ?? 0)
  return new Map(
    found.filter((_, i) => Math.abs(speeds[i]! - usual) <= Math.max(OFF_WITHIN * usual, 4 * scatter)),
  )
}
