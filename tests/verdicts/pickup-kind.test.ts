import { expect, test } from 'vitest'
import type { ChannelEntry, Engine } from '../../src/job/schema.ts'
import { pickupKinds } from '../../src/verdicts/pickup-kind.ts'

const engine = (ignition: Engine['ignition']): Engine => ({
  cylinders: 4,
  strokes: 4,
  firing_order: [1, 3, 4, 2],
  ignition,
  fuel: 'E0',
})
const secondary = (cylinders: ChannelEntry['cylinders']): ChannelEntry => ({
  column: 'a',
  carries: 'secondary',
  cylinders,
  unit: 'kV',
  scale: 1,
  polarity: 'auto',
})
const sync: ChannelEntry = {
  column: 's',
  carries: 'sync',
  cylinder: 1,
  unit: 'V',
  scale: 1,
  polarity: 'auto',
}

test.each([
  [
    'a lead every event passes',
    'distributor',
    ['all'],
    [
      [1, 'common lead'],
      [2, 'common lead'],
      [3, 'common lead'],
      [4, 'common lead'],
    ],
  ],
  [
    'leads of their own',
    'coil-per-cylinder',
    [1, 3],
    [
      [1, 'own lead'],
      [3, 'own lead'],
    ],
  ],
  [
    'a whole coil',
    'wasted-spark',
    [[1, 4]],
    [
      [1, 'whole coil'],
      [4, 'whole coil'],
    ],
  ],
  ['one lead of a pair', 'wasted-spark', [4], [[4, 'own lead']]],
] as const)('%s', (_, ignition, pickups, expected) => {
  const kinds = pickupKinds(
    { channels: [...pickups.map((p) => secondary(p as ChannelEntry['cylinders'])), sync] },
    engine(ignition),
  )
  expect([...kinds].toSorted((a, b) => a[0] - b[0])).toEqual(expected)
})
