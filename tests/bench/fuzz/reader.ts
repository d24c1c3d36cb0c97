import type { Problem } from '../../../src/problems/problem.ts'

/** An input in order, from which mutations start. */
export interface FuzzSeed {
  name: string
  bytes: Buffer
}

/** A reader under test. */
export interface FuzzReader {
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
