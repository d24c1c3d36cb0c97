import { engineSchema } from '../job/schema.ts'
import type { Answers, EngineGuess } from '../peek/drafted.ts'
import type { Arg, KeyNeeding, Texts, WordKey } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { AskLine } from './talk.ts'

const IGNITIONS = engineSchema.shape.ignition.options
const FUELS = engineSchema.shape.fuel.options
/** A wrong answer is asked for again this often, then left open. */
const MOST_TURNS = 3

/**
 * Asks for what no capture shows. An empty answer leaves the guess, or the gap.
 *
 * @param guessed  the engine as guessed from the captures and what was answered so far
 */
export async function askForJob(
  ask: AskLine,
  { texts, guessed }: { texts: Texts; guessed: (answers: Answers) => EngineGuess },
): Promise<Answers> {
  const answers: Answers = {}
  const words = async (key: WordKey): Promise<string | undefined> => (await ask(say(texts, key))) || undefined
  const choice = async <T>(
    key: KeyNeeding<{ guess: Arg }>,
    guess: string | undefined,
    read: (text: string) => T | undefined,
  ): Promise<T | undefined> => {
    for (let turn = 0; turn < MOST_TURNS; turn++) {
      const text = await ask(say(texts, key, { guess: guess ?? say(texts, 'new.no-guess') }))
      const answer = text === '' ? undefined : read(text)
      if (text === '' || answer !== undefined) return answer
    }
    return undefined
  }
  answers.workOrder = await words('new.ask.work-order')
  answers.shop = await words('new.ask.shop')
  answers.technician = await words('new.ask.technician')
  answers.make = await words('new.ask.make')
  answers.model = await words('new.ask.model')
  answers.complaint = await words('new.ask.complaint')
  answers.cylinders = await choice(
    'new.ask.cylinders',
    guessed(answers).cylinders.value?.toString(),
    wholeNumber,
  )
  answers.firingOrder = await choice(
    'new.ask.firing-order',
    guessed(answers).firingOrder.value?.join(' '),
    order(guessed(answers).cylinders.value),
  )
  answers.ignition = await choice('new.ask.ignition', guessed(answers).ignition.value, oneOf(IGNITIONS))
  answers.fuel = await choice('new.ask.fuel', undefined, oneOf(FUELS))
  return answers
}

const wholeNumber = (text: string): number | undefined =>
  /^\d{1,2}$/.test(text) && Number(text) >= 1 && Number(text) <= 16 ? Number(text) : undefined

/** Each cylinder once, parted by blanks, commas or hyphens. */
const order =
  (cylinders: number | undefined) =>
  (text: string): number[] | undefined => {
    const numbers = text.split(/[\s,-]+/).map(wholeNumber)
    const whole =
      numbers.every((n) => n !== undefined && n <= (cylinders ?? numbers.length)) &&
      new Set(numbers).size === numbers.length
    return whole && numbers.length === (cylinders ?? numbers.length) ? (numbers as number[]) : undefined
  }

const oneOf =
  <T extends string>(choices: readonly T[]) =>
  (text: string): T | undefined =>
    choices.find((c) => c.toLowerCase() === text.toLowerCase())
