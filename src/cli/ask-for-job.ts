import type { Answers, EngineGuess } from '../peek/drafted.ts'
import { NO_FACTS, readFacts, withFacts, type Facts } from '../peek/facts.ts'
import type { Stage } from '../job/schema.ts'
import type { Sentence, Texts } from '../texts/messages.ts'
import { sentence } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { AskLine } from './talk.ts'

/** A wrong answer is asked for again this often, then left open. */
const MOST_TURNS = 3

/** What the conversation is about. */
export interface Talk {
  texts: Texts
  /** Name of the job folder: the work order where none is said. */
  folder: string
  /** The engine as guessed from the captures and the facts said so far. */
  guessed: (facts: Facts) => EngineGuess
  /** Captures whose stage is not clear, and those of them that look repaired, each with the one it is held against. */
  unclear: (facts: Facts) => Promise<{ files: readonly string[]; looksRepaired: ReadonlyMap<string, string> }>
  /** Says a sentence to whoever answers. */
  tell: (line: string) => void
}

/**
 * Asks for what no capture shows and nobody has said yet: the shop's own once, then work order, vehicle, complaint,
 * engine. An empty answer leaves the guess, or the gap.
 *
 * @param said  what the command line and the shop file say
 */
export async function askForJob(ask: AskLine, said: Answers, talk: Talk): Promise<Answers> {
  const { texts } = talk
  const answers: Answers = { ...said }
  const words = async (question: string): Promise<string | undefined> => (await ask(question)) || undefined
  if (answers.shop === undefined) fill(answers, { shop: await words(say(texts, 'new.ask.shop')) })
  if (answers.technician === undefined)
    fill(answers, { technician: technicianOf(await words(say(texts, 'new.ask.technician'))) })
  if (answers.instrument === undefined)
    fill(answers, { instrument: instrumentOf(await words(say(texts, 'new.ask.instrument')), talk) })
  if (answers.workOrder === undefined)
    fill(answers, { workOrder: await words(say(texts, 'new.ask.work-order', { guess: talk.folder })) })
  if (!hasVehicle(answers.facts))
    answers.facts = await askFacts(ask, answers.facts ?? NO_FACTS, {
      talk,
      question: () => say(texts, 'new.ask.vehicle'),
      free: true,
    })
  if (answers.complaint === undefined)
    fill(answers, { complaint: await words(say(texts, 'new.ask.complaint')) })
  if (!isWholeEngine(answers.facts))
    answers.facts = await askFacts(ask, answers.facts ?? NO_FACTS, {
      talk,
      question: (facts) => say(texts, 'new.ask.engine', { guess: engineWords(facts, talk) }),
      free: false,
    })
  if (answers.stages === undefined)
    fill(answers, { stages: await askStages(ask, answers.facts ?? NO_FACTS, talk) })
  return answers
}

function fill(answers: Answers, given: { [K in keyof Answers]?: Answers[K] | undefined }): void {
  for (const [key, value] of Object.entries(given))
    if (value !== undefined) Object.assign(answers, { [key]: value })
}

const hasVehicle = (facts: Facts | undefined): boolean =>
  facts !== undefined && (facts.make !== undefined || facts.year !== undefined || facts.vin !== undefined)

const isWholeEngine = (facts: Facts | undefined): boolean =>
  facts?.cylinders !== undefined &&
  facts.firingOrder !== undefined &&
  facts.ignition !== undefined &&
  facts.fuel !== undefined

/** The engine as it will be taken where nothing is answered. */
function engineWords(facts: Facts, { texts, guessed }: Talk): string {
  const { cylinders, firingOrder, ignition } = guessed(facts)
  const known = [
    cylinders.value === undefined ? undefined : `${cylinders.value} cyl`,
    firingOrder.value?.join('-'),
    ignition.value,
    facts.fuel ?? 'E10',
  ].filter((part) => part !== undefined)
  return cylinders.value === undefined ? say(texts, 'new.no-guess') : known.join(', ')
}

async function askFacts(
  ask: AskLine,
  known: Facts,
  { talk, question, free }: { talk: Talk; question: (facts: Facts) => string; free: boolean },
): Promise<Facts> {
  let facts = known
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const line = await ask(question(facts))
    if (line === '') break
    const read = readFacts(line, { known: facts, free })
    facts = withFacts(facts, read.facts)
    for (const each of [...read.facts.taken, ...read.refused]) talk.tell(say(talk.texts, each))
    if (read.refused.length === 0) break
  }
  return facts
}

/** Undefined where every stage is clear. An empty answer takes those for after the repair that look so. */
async function askStages(
  ask: AskLine,
  facts: Facts,
  { texts, unclear, tell }: Talk,
): Promise<ReadonlyMap<string, Stage> | undefined> {
  const { files, looksRepaired } = await unclear(facts)
  if (files.length === 0) return undefined
  for (const [file, other] of looksRepaired)
    tell(say(texts, 'new.looks-repaired', { file: nameOf(file), other: nameOf(other) }))
  const listed = files.map((file, i) => `${i + 1} ${nameOf(file)}`).join(', ')
  const likely = files.flatMap((file, i) => (looksRepaired.has(file) ? [i + 1] : []))
  const guess = likely.length > 0 ? likely.join(', ') : say(texts, 'new.no-guess')
  const stages = (after: readonly number[]) =>
    new Map(files.map((file, i): [string, Stage] => [file, after.includes(i + 1) ? 'after' : 'before']))
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const line = await ask(say(texts, 'new.ask.after', { files: listed, guess }))
    if (line === '') break
    if (/^(?:none|no|0|-)$/i.test(line)) return stages([])
    if (/^all$/i.test(line)) return stages(files.map((_, i) => i + 1))
    const numbers = line
      .split(/[^\d]+/)
      .filter((n) => n !== '')
      .map(Number)
    if (numbers.length > 0 && numbers.every((n) => n >= 1 && n <= files.length)) return stages(numbers)
    tell(say(texts, 'new.refused.numbers', { found: { words: line } }))
  }
  return stages(likely)
}

const nameOf = (file: string): string => file.replace(/^.*\//, '')

/** Name and certificate, parted by a comma. */
export function technicianOf(line: string | undefined): Answers['technician'] {
  const [name, ...rest] = line?.split(',') ?? []
  const certificate = rest.join(',').trim()
  return name?.trim() ? { name: name.trim(), ...(certificate === '' ? {} : { certificate }) } : undefined
}

/** What it is, and the share its kV may be off by. */
export function instrumentOf(
  line: string | undefined,
  { texts, tell }: Pick<Talk, 'texts' | 'tell'>,
): Answers['instrument'] {
  if (line === undefined) return undefined
  const share = /(?:\u00b1|\+\/?-)?\s*(\d+(?:[.,]\d+)?)\s*%/.exec(line)
  const description = line.replace(share?.[0] ?? '', '').replace(/^[\s,;]+|[\s,;]+$/g, '')
  const refused: Sentence | undefined = share
    ? undefined
    : sentence('new.refused.percent', { found: { words: line } })
  if (refused) tell(say(texts, refused))
  return {
    ...(description === '' ? {} : { description }),
    ...(share ? { voltage_uncertainty_percent: Number(share[1]!.replace(',', '.')) } : {}),
  }
}
