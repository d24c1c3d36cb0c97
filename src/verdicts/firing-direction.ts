import type { Engine } from '../job/schema.ts'

export type Direction = 'positive' | 'negative'

/** A channel as it was read: the cylinders it sees, and the direction of its firing lines. */
interface ReadChannel {
  carries: string
  /** Numbers parted by blanks, or `all`. */
  cylinders: string
  polarity: Direction | 'not applicable'
}

/**
 * Direction of each cylinder's firing line where plugs of one engine fire either way: wasted spark with a pickup on each
 * lead. Empty elsewhere: there a direction tells of the pickup and not of the plug.
 */
export function firingDirections(
  channels: readonly ReadChannel[],
  ignition: Engine['ignition'],
): Map<number, Direction> {
  const own = channels.filter((c) => c.carries === 'secondary' && /^\d+$/.test(c.cylinders))
  if (ignition !== 'wasted-spark') return new Map()
  return new Map(
    own.flatMap(({ cylinders, polarity }) =>
      polarity === 'not applicable' ? [] : [[Number(cylinders), polarity] as const],
    ),
  )
}
