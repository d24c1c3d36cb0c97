import { GUESS_MARK } from '../job/guesses.ts'
import type { Engine } from '../job/schema.ts'
import type { Peeked } from './peeked.ts'

/** A file of the new job and what was seen in it; `peeked` is undefined where it could not be read. */
export interface DraftedFile {
  file: string
  taken: string
  peeked: Peeked | undefined
}

/** What somebody said; absent where nobody was asked or nothing was answered. */
export interface Answers {
  workOrder?: string
  shop?: string
  technician?: string
  make?: string
  model?: string
  complaint?: string
  cylinders?: number
  firingOrder?: readonly number[]
  ignition?: Engine['ignition']
  fuel?: Engine['fuel']
}

/** A value with why it was guessed; said values have no reason, missing ones no value. */
export interface Guess<T> {
  value: T | undefined
  why: string | undefined
}

/** What the captures let one guess about the engine. */
export interface EngineGuess {
  cylinders: Guess<number>
  firingOrder: Guess<readonly number[]>
  ignition: Guess<Engine['ignition']>
}

/** The remark behind a guess; nothing behind what was said. */
export const mark = (why: string | undefined): string => (why === undefined ? '' : `  ${GUESS_MARK} ${why}`)

/** A value with its mark; nothing behind the colon where there is none, which the check reports as missing. */
export const marked = <T>(
  key: string,
  { value, why }: Guess<T>,
  write: (value: T) => string = quoted,
): string => `${key}:${value === undefined ? '' : ` ${write(value)}`}${value === undefined ? '' : mark(why)}`

/** JSON strings are YAML strings, whatever they hold. */
export const quoted = (value: unknown): string => JSON.stringify(value)
