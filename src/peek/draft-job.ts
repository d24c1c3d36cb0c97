import { pairsOf, usualOrder } from '../model/capture-parameters.ts'
import { sentence, type Sentence, type Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { cylinderNamed, draftRecording, isTrace, secondariesOf } from './draft-recording.ts'
import {
  indented,
  marked,
  plain,
  quoted,
  type Answers,
  type DraftedFile,
  type DraftLine,
  type EngineGuess,
  type Guess,
} from './drafted.ts'
import { NO_FACTS, type Facts } from './facts.ts'
import { stageOf } from './guess-stage.ts'

const MOST_CYLINDERS = 16

const NOTHING = { value: undefined, why: undefined } as const

/** Guesses the engine from what the captures show; facts said stand before guesses. */
export function guessEngine(files: readonly DraftedFile[], facts: Facts): EngineGuess {
  const secondaries = files.map(secondariesOf)
  const most = Math.max(0, ...secondaries.map((s) => s.length))
  const named = new Set(files.map(cylinderNamed).filter((n) => n !== undefined))
  const ownFiles = named.size > 1 && Math.max(...named) === named.size
  const perPulse = secondaries
    .flat()
    .map((c) => c.events?.perPulse)
    .find((p) => most === 1 && p && p.share > 0.8 && p.count > 1 && p.count <= MOST_CYLINDERS)
  const cylinders: Guess<number> =
    facts.cylinders !== undefined
      ? said(facts.cylinders)
      : perPulse
        ? { value: perPulse.count, why: sentence('new.why.per-pulse', { count: perPulse.count }) }
        : most > 1
          ? { value: most, why: sentence('new.why.pickups', { count: most }) }
          : ownFiles
            ? { value: named.size, why: sentence('new.why.own-files', { count: named.size }) }
            : NOTHING
  const ignition: EngineGuess['ignition'] =
    facts.ignition !== undefined
      ? said(facts.ignition)
      : perPulse
        ? { value: 'distributor', why: sentence('new.why.one-pickup') }
        : most >= 1
          ? { value: 'coil-per-cylinder', why: sentence('new.why.own-pickup') }
          : NOTHING
  const usual = orderOf(cylinders.value)
  const firingOrder: EngineGuess['firingOrder'] =
    facts.firingOrder !== undefined
      ? said(facts.firingOrder)
      : { value: usual, why: usual && sentence('new.why.usual-order', { count: usual.length }) }
  return { cylinders, ignition, firingOrder }
}

/** A usual order; undefined for a number of cylinders that has none. */
function orderOf(cylinders: number | undefined): readonly number[] | undefined {
  if (cylinders === undefined) return undefined
  try {
    return usualOrder(cylinders)
  } catch (cause) {
    if (cause instanceof RangeError) return undefined // nothing is usual for such a number, so nothing is guessed
    throw cause
  }
}

const plainly = (value: unknown): string => String(value)
const listed = (value: readonly number[]): string => `[${value.join(', ')}]`
const said = <T>(value: T | undefined): Guess<T> => ({ value, why: undefined })
/** What was said, or words that keep the job whole until somebody says it. */
const saidOr = <T>(value: T | undefined, instead: T, why: Sentence): Guess<T> =>
  value === undefined ? { value: instead, why } : said(value)

/** A draft: the text of job.yaml, and all that was taken for granted in it, once each. */
export interface Draft {
  text: string
  granted: readonly { line: string; why: Sentence }[]
}

/** What a draft is made of beside the files. */
export interface DraftAbout {
  /** Name of the job folder: the work order where none is said. */
  folder: string
  /** ISO date taken for the day the job was opened: of its first recording, or today. */
  opened: { day: string; ofRecording: boolean }
  /** Where editors find the schema of job.yaml, from its folder. */
  schema: string
}

/** job.yaml for files about which little is known. What is not known and cannot be guessed is left empty. */
export function draftJob(
  texts: Texts,
  files: readonly DraftedFile[],
  { answers, about }: { answers: Answers; about: DraftAbout },
): Draft {
  const facts = answers.facts ?? NO_FACTS
  const engine = guessEngine(files, facts)
  const captures = files.filter((f) => !isTrace(f)).sort(inTurn(answers.stages))
  const traces = files.filter(isTrace)
  const entry = (file: DraftedFile): DraftLine[] =>
    draftRecording(file, { engine, stages: answers.stages, looksRepaired: answers.looksRepaired })
  const notStated = say(texts, 'new.not-stated')
  const lines: DraftLine[] = [
    plain(`# yaml-language-server: $schema=${about.schema}`),
    plain('format: 1'),
    marked('work_order', saidOr(answers.workOrder, about.folder, sentence('new.why.folder'))),
    marked(
      'opened',
      {
        value: about.opened.day,
        why: about.opened.ofRecording ? sentence('new.why.opened') : sentence('new.why.today'),
      },
      plainly,
    ),
    plain('shop:'),
    indented(2, marked('name', saidOr(answers.shop, notStated, sentence('new.why.not-said')))),
    plain('technician:'),
    indented(2, marked('name', saidOr(answers.technician?.name, notStated, sentence('new.why.not-said')))),
    ...optional(2, 'certificate', answers.technician?.certificate),
    ...vehicleLines(facts),
    plain('engine:'),
    ...[
      marked('cylinders', engine.cylinders, plainly),
      marked('firing_order', engine.firingOrder, listed),
      marked('ignition', engine.ignition, plainly),
      ...pairLines(engine),
      marked('fuel', saidOr(facts.fuel, 'E10', sentence('new.why.fuel')), plainly),
      ...(facts.displacementL === undefined ? [] : [plain(`displacement_l: ${facts.displacementL}`)]),
    ].map((line) => indented(2, line)),
    marked('complaint', saidOr(answers.complaint, notStated, sentence('new.why.not-said'))),
    ...instrumentLines(answers.instrument),
    plain('captures:'),
    ...captures.flatMap(entry),
    ...(traces.length > 0 ? [plain('traces:'), ...traces.flatMap(entry)] : []),
  ]
  return written(texts, lines)
}

/** Captures before the repair first, then by their times; as given where both are alike. */
const inTurn =
  (stages: Answers['stages']) =>
  (a: DraftedFile, b: DraftedFile): number => {
    const late = (f: DraftedFile) => ((stages?.get(f.file) ?? stageOf(f).value) === 'after' ? 1 : 0)
    return late(a) - late(b) || Date.parse(a.taken) - Date.parse(b.taken)
  }

/** Lines put together; why a value was taken stands behind it as a remark. */
export function written(texts: Texts, lines: readonly DraftLine[]): Draft {
  return {
    text: `${lines.map(({ text, why }) => (why ? `${text}  # ${oneLine(say(texts, why))}` : text)).join('\n')}\n`,
    granted: grantedIn(texts, lines),
  }
}

/** What was taken for granted, the same of several files once, with the key it stands under. */
function grantedIn(texts: Texts, lines: readonly DraftLine[]): Draft['granted'] {
  const seen = new Map<string, Draft['granted'][number]>()
  let above = ''
  for (const { text, why } of lines) {
    if (/^\w+:$/.test(text)) above = `${text.slice(0, -1)}.`
    if (why === undefined) continue
    const line = /^ {2}\w/.test(text) ? `${above}${text.trim()}` : text.trim().replace(/^- /, '')
    const key = `${line} ${say(texts, why)}`
    if (!seen.has(key)) seen.set(key, { line, why })
  }
  return [...seen.values()]
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim()

const optional = (by: number, key: string, value: string | number | undefined): DraftLine[] =>
  value === undefined ? [] : [indented(by, plain(`${key}: ${quoted(value)}`))]

/** An empty vehicle is written as one, so that there is something to fill in. */
function vehicleLines({ vin, plate, year, make, model, odometer }: Facts): DraftLine[] {
  const rows = [
    ...optional(2, 'vin', vin),
    ...optional(2, 'plate', plate),
    ...optional(2, 'year', year),
    ...optional(2, 'make', make),
    ...optional(2, 'model', model),
    ...(odometer ? [plain(`  odometer: { value: ${odometer.value}, unit: ${odometer.unit} }`)] : []),
  ]
  return rows.length > 0 ? [plain('vehicle:'), ...rows] : [plain('vehicle: {}')]
}

function instrumentLines(instrument: Answers['instrument']): DraftLine[] {
  if (!instrument) return []
  return [
    plain('instrument:'),
    ...optional(2, 'description', instrument.description),
    ...optional(2, 'voltage_uncertainty_percent', instrument.voltage_uncertainty_percent),
  ]
}

function pairLines({ ignition, firingOrder }: EngineGuess): DraftLine[] {
  const order = firingOrder.value
  if (ignition.value !== 'wasted-spark' || !order || order.length % 2 !== 0) return []
  return [
    marked('pairs', { value: pairsOf(order), why: sentence('new.why.pairs') }, (p) =>
      quoted(p).replaceAll(',', ', '),
    ),
  ]
}

/** A slow trace lies under traces/. */
export const inItsFolder = (file: DraftedFile): DraftedFile =>
  isTrace(file) ? { ...file, file: file.file.replace(/^captures\//, 'traces/') } : file
