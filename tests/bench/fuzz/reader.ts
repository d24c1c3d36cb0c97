import type { Random } from '../../../src/maths/random.ts'
import type { Problem } from '../../../src/problems/problem.ts'
import { mutated } from './mutate.ts'

/** An input in order, from which mutations start. */
export interface FuzzSeed {
  name: string
  bytes: Buffer
}

/** One input under test: what it is, its bytes, and how it is read and checked. */
export interface FuzzInput {
  seed: string
  bytes: Buffer
  /** @throws JobError for an input refused; Finding for what must never happen */
  read: () => Promise<readonly Problem[]>
}

/** A reader under test; an input is drawn from a seeded source alone. */
export interface FuzzReader {
  name: string
  draw: (random: Random) => FuzzInput
}

/** A reader of inputs in order that are then mutated. */
export interface MutatedReader {
  name: string
  seeds: readonly FuzzSeed[]
  /** Pieces that mean something to it. */
  pieces: readonly string[]
  /**
   * Reads one input and checks what was read against an independent reading.
   * @throws JobError for an input refused; Finding for what must never happen
   */
  read: (bytes: Buffer) => Promise<readonly Problem[]>
}

/** Draws one of its seeds, mutated. */
export const mutating = (reader: MutatedReader): FuzzReader => ({
  name: reader.name,
  draw: (random) => {
    const seed = reader.seeds[random.integer(reader.seeds.length)]!
    const bytes = mutated(seed.bytes, random, reader.pieces)
    return { seed: seed.name, bytes, read: () => reader.read(bytes) }
  },
})
