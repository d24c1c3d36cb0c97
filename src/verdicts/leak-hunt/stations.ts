/**
 * Stations of the intake path in the order the air takes, from the air duct to the valves. Air that comes in at any of
 * them was not metered; hoses are all that hangs on the plenum.
 * @source common practice, no source
 */
export const STATIONS = ['meter', 'duct', 'throttle', 'plenum', 'hose', 'manifold', 'runner', 'port'] as const
export type Station = (typeof STATIONS)[number]

/** What hangs on the plenum. */
export const HOSES = ['vacuum', 'breather', 'brake servo', 'purge', 'exhaust recirculation'] as const
export type Hose = (typeof HOSES)[number]
