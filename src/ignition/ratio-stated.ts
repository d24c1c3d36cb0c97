import type { ChannelEntry } from '../job/schema.ts'
import type { Interval } from '../units/measured.ts'

/** Whether the job states how a channel's figures become kV at the engine: volts without a scale are volts at the recorder. */
export const ratioStated = ({ unit, scale }: Pick<ChannelEntry, 'unit' | 'scale'>): boolean =>
  unit === 'kV' || scale !== 1

const V_PER_KV = 1000

/** A voltage of a channel as it may be said: kV at the engine or, where the pickup's ratio is not stated, V at the recorder. */
export function asStated(kv: number, stated: boolean): Interval<'kV' | 'V'> {
  const value = stated ? kv : V_PER_KV * kv
  return { value, low: value, high: value, unit: stated ? 'kV' : 'V' }
}
