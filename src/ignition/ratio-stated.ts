import type { ChannelEntry } from '../job/schema.ts'

/** Whether the job states how a channel's figures become kV at the engine: volts without a scale are volts at the recorder. */
export const ratioStated = ({ unit, scale }: Pick<ChannelEntry, 'unit' | 'scale'>): boolean =>
  unit === 'kV' || scale !== 1
