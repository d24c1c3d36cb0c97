import { loadTexts } from '../texts/load-texts.ts'
import type { Texts } from '../texts/messages.ts'
import { plainTexts } from '../texts/plain-signs.ts'
/** Characters across where nothing tells, and most that a drawing takes. */
const USUAL_WIDTH = 78
const MOST_WIDTH = 120

/**
 * How text may be shown on a stream: its width, and plain ASCII where it is no terminal, or the environment asks for it
 * (NO_COLOR set to anything, TERM=dumb).
 */
export function shownOn(
  stream: { isTTY?: boolean; columns?: number },
  env: Readonly<Record<string, string | undefined>>,
): { width: number; plain: boolean } {
  const asked = (env['NO_COLOR'] ?? '') !== '' || env['TERM'] === 'dumb'
  return { width: Math.min(stream.columns ?? USUAL_WIDTH, MOST_WIDTH), plain: stream.isTTY !== true || asked }
}

/** Texts for the lines of a call: with signs of print where a terminal shows them, plain in a pipe or a file. */
export const forLines = (texts: Texts): Texts => (isShownWell() ? texts : plainTexts(texts))

export const isShownWell = (): boolean =>
  [process.stdout, process.stderr].every((stream) => !shownOn(stream, process.env).plain)

/** The English of the command line. */
export const lineTexts = (): Texts => forLines(loadTexts('en'))
