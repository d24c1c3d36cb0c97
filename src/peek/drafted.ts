import type { Engine, Stage } from '../job/schema.ts'
import type { Sentence } from '../texts/messages.ts'
import type { Facts } from './facts.ts'
import type { Peeked } from './peeked.ts'

/** A file of the new job and what was seen in it; `peeked` is undefined where it could not be read. */
export interface DraftedFile {
  file: string
  taken: string
  /** Whether `taken` is the file's own date, or what its preamble says. */
  takenFrom: 'file' | 'preamble'
  peeked: Peeked | undefined
}

/** What somebody said; absent where nobody was asked or nothing was answered. */
export interface Answers {
  workOrder?: string
  shop?: string
  technician?: { name: string; certificate?: string | undefined }
  instrument?: { description?: string | undefined; voltage_uncertainty_percent?: number | undefined }
  complaint?: string
  /** Vehicle and engine, as said in a line or more. */
  facts?: Facts
  /** Stages said, by file; a file that is not here has its guess. */
  stages?: ReadonlyMap<string, Stage>
  /** Captures that look repaired where nobody said so, each with the one it is held against. */
  looksRepaired?: ReadonlyMap<string, string>
}

/** A value with why it was guessed; said values have no reason, missing ones no value. */
export interface Guess<T> {
  value: T | undefined
  why: Sentence | undefined
}

/** What the captures let one guess about the engine. */
export interface EngineGuess {
  cylinders: Guess<number>
  firingOrder: Guess<readonly number[]>
  ignition: Guess<Engine['ignition']>
}

/** A line of the draft, with why its value was taken where nobody said it. */
export interface DraftLine {
  text: string
  why?: Sentence
}

export const plain = (text: string): DraftLine => ({ text })
export const indented = (by: number, { text, ...rest }: DraftLine): DraftLine => ({
  text: `${' '.repeat(by)}${text}`,
  ...rest,
})

/** A key with its value; nothing behind the colon where there is none, which the check reports as missing. */
export const marked = <T>(
  key: string,
  { value, why }: Guess<T>,
  write: (value: T) => string = quoted,
): DraftLine => ({
  text: `${key}:${value === undefined ? '' : ` ${write(value)}`}`,
  ...(value === undefined || why === undefined ? {} : { why }),
})

/** JSON strings are YAML strings, whatever they hold. */
export const quoted = (value: unknown): string => JSON.stringify(value)
