import type { Dice } from './dice.ts'

/** An engine as job.yaml names it. */
export interface ComposedEngine {
  cylinders: number
  firingOrder: readonly number[]
  ignition: 'distributor' | 'coil-per-cylinder' | 'wasted-spark'
  /** Wasted spark only. */
  pairs?: readonly (readonly number[])[]
  banks: Readonly<Record<string, readonly number[]>> | undefined
  /** As job.yaml has it; E10 where left out. */
  fuel?: 'E10' | 'LPG' | 'CNG'
}

/** Common layouts; firing orders as usual for them. Common practice, no source. */
const LAYOUTS: readonly (readonly [Omit<ComposedEngine, 'ignition'>, number])[] = [
  [{ cylinders: 3, firingOrder: [1, 3, 2], banks: undefined }, 1],
  [{ cylinders: 4, firingOrder: [1, 3, 4, 2], banks: undefined }, 4],
  [{ cylinders: 5, firingOrder: [1, 2, 4, 5, 3], banks: undefined }, 1],
  [{ cylinders: 6, firingOrder: [1, 5, 3, 6, 2, 4], banks: undefined }, 1],
  [{ cylinders: 6, firingOrder: [1, 2, 3, 4, 5, 6], banks: { 1: [1, 3, 5], 2: [2, 4, 6] } }, 3],
  [{ cylinders: 8, firingOrder: [1, 8, 4, 3, 6, 5, 7, 2], banks: { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] } }, 2],
]

export function drawEngine(dice: Dice): ComposedEngine {
  const layout = dice.weighed(LAYOUTS)
  const own = layout.cylinders <= 4 && dice.chance(0.3)
  return { ...layout, ignition: own ? 'coil-per-cylinder' : 'distributor' }
}

export const allOf = ({ cylinders }: ComposedEngine): number[] =>
  Array.from({ length: cylinders }, (_, i) => i + 1)

/** The banks of an engine; one without a name where it has none. */
export const banksOf = (engine: ComposedEngine): readonly { bank: string; cylinders: readonly number[] }[] =>
  engine.banks
    ? Object.entries(engine.banks).map(([bank, cylinders]) => ({ bank, cylinders }))
    : [{ bank: '1', cylinders: allOf(engine) }]
