import { visible } from '../problems/control-characters.ts'
import { createInterface } from 'node:readline'

/** The lines of a conversation: writes a question, gives the answer without the space around it. */
export type AskLine = (question: string) => Promise<string>

/** Ctrl-C while a question stood open: whoever asked stops before anything is made. */
export class Interrupted extends Error {}

/**
 * Asks on a pair of streams. Lines that come before their question (typed ahead, or pasted in one piece) wait for it;
 * after the end of the input every answer is empty.
 * @throws Interrupted
 */
export async function talkOn<T>(
  streams: { input: NodeJS.ReadableStream; output: NodeJS.WritableStream; terminal?: boolean },
  talk: (ask: AskLine) => Promise<T>,
): Promise<T> {
  const lines = createInterface(streams)
  const early: string[] = []
  let waiting: { answer: (line: string) => void; stop: (why: Error) => void } | undefined
  let state: 'open' | 'ended' | 'interrupted' = 'open'
  /** The question that stands open, taken from its place: one line answers it and no other. */
  const open = (): typeof waiting => {
    const question = waiting
    waiting = undefined
    return question
  }
  lines.on('line', (line) => {
    const question = open()
    if (question) question.answer(line)
    else early.push(line)
  })
  lines.on('SIGINT', () => {
    state = 'interrupted'
    open()?.stop(new Interrupted())
  })
  lines.on('close', () => {
    if (state === 'open') {
      state = 'ended'
      open()?.answer('')
    }
  })
  const ask: AskLine = async (question) => {
    if (state === 'interrupted') throw new Interrupted()
    lines.setPrompt(visible(question))
    if (state === 'open') lines.prompt()
    const line =
      early.shift() ??
      (state === 'ended'
        ? ''
        : await new Promise<string>((answer, stop) => {
            waiting = { answer, stop }
          }))
    return line.trim()
  }
  try {
    return await talk(ask)
  } finally {
    lines.close()
  }
}
