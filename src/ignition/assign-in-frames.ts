import { median } from '../maths/median.ts'
import { assignCylinders, type AssignInput, type Assignment, type SyncLoss } from './assign-cylinder.ts'
import type { SyncMark } from './event.ts'

/** Events and pulses with the frame each lies in; undefined where the record is one. */
export interface FramedInput extends AssignInput {
  frames: readonly (number | undefined)[]
  pulseFrames: readonly (number | undefined)[]
}

/** A lone event beside a lone pulse is the sync cylinder's where it lies within this share of a firing interval of it ... */
const NEAR_SHARE = 0.3
/** ... or within this, s, where no frame shows the interval: a share of the shortest one of any idle. */
const NEAR_S = 1e-3

/** Tells cylinders frame by frame, since no turn is counted from one frame to the next. */
export function assignInFrames(input: FramedInput): Assignment {
  const numbers = [...new Set(input.frames)]
  if (numbers.length === 0 || (numbers.length === 1 && numbers[0] === undefined))
    return assignCylinders(input)
  const at = (of: readonly (number | undefined)[], frame: number | undefined): number[] =>
    of.flatMap((own, i) => (own === frame ? [i] : []))
  const stepS = firingInterval(input)
  const cylinders = input.timesS.map((): number | undefined => undefined)
  const bridged = input.timesS.map(() => false)
  const marks: SyncMark[] = []
  const losses: SyncLoss[] = []
  for (const frame of new Set([...numbers, ...input.pulseFrames])) {
    const events = at(input.frames, frame)
    const own = {
      ...input,
      timesS: events.map((i) => input.timesS[i]!),
      pulses: at(input.pulseFrames, frame).map((i) => input.pulses[i]!),
    }
    const told = own.timesS.length === 1 ? assignLone(own, stepS) : assignCylinders(own)
    events.forEach((i, k) => {
      cylinders[i] = told.cylinders[k]
      bridged[i] = told.bridged[k]!
    })
    marks.push(...told.marks)
    if (told.lost && events.length > 0) losses.push(told.lost)
  }
  const lost = cylinders.every((c) => c === undefined) ? commonest(losses) : undefined
  return { cylinders, bridged, marks: marks.sort((a, b) => a.atS - b.atS), lost }
}

/** Interval between neighbouring firings, from frames that hold some; undefined where none does or the pickup misses some. */
function firingInterval({ timesS, frames, seen, firingOrder }: FramedInput): number | undefined {
  if (seen.length < firingOrder.length) return undefined
  return median(timesS.slice(1).flatMap((t, i) => (frames[i + 1] === frames[i] ? [t - timesS[i]!] : [])))
}

/** One event in a frame: the sync cylinder's where the pulse stands by it. */
function assignLone(
  { timesS, pulses, syncCylinder, seen }: AssignInput,
  stepS: number | undefined,
): Assignment {
  const own = pulses.filter((p) => p.state === 'seen')
  const near = stepS === undefined ? NEAR_S : NEAR_SHARE * stepS
  const isOwn = own.length === 1 && Math.abs(own[0]!.atS - timesS[0]!) <= near && seen.includes(syncCylinder)
  return {
    cylinders: [isOwn ? syncCylinder : undefined],
    bridged: [false],
    marks: [...pulses],
    lost: isOwn ? undefined : own.length === 0 ? 'no-pulses' : 'too-few-events',
  }
}

function commonest(losses: readonly SyncLoss[]): SyncLoss {
  const count = (loss: SyncLoss): number => losses.filter((l) => l === loss).length
  return losses.toSorted((a, b) => count(b) - count(a))[0] ?? 'no-pulses'
}
