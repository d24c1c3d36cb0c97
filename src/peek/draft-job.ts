import type { Engine } from '../job/schema.ts'
import { pairsOf, usualOrder } from '../model/capture-parameters.ts'
import { draftRecording, isTrace, secondariesOf } from './draft-recording.ts'
import { marked, quoted, type Answers, type DraftedFile, type EngineGuess, type Guess } from './drafted.ts'

const MOST_CYLINDERS = 16

/** Guesses the engine from what the captures show; answers stand before guesses. */
export function guessEngine(files: readonly DraftedFile[], said: Answers): EngineGuess {
  const secondaries = files.map(secondariesOf)
  const perPulse = secondaries
    .flat()
    .map((c) => c.events?.perPulse)
    .find((p) => p && p.share > 0.8 && p.count >= 1 && p.count <= MOST_CYLINDERS)
  const most = Math.max(0, ...secondaries.map((s) => s.length))
  const cylinders: Guess<number> =
    said.cylinders !== undefined
      ? { value: said.cylinders, why: undefined }
      : perPulse
        ? { value: perPulse.count, why: `${perPulse.count} events to a sync pulse` }
        : most > 1
          ? { value: most, why: `${most} secondary columns` }
          : { value: undefined, why: undefined }
  const ignition: Guess<Engine['ignition']> =
    said.ignition !== undefined
      ? { value: said.ignition, why: undefined }
      : perPulse && perPulse.count > 1
        ? { value: 'distributor', why: 'one pickup sees every cylinder' }
        : most > 1
          ? { value: 'coil-per-cylinder', why: 'several pickups' }
          : { value: undefined, why: undefined }
  const usual = orderOf(cylinders.value)
  const firingOrder: EngineGuess['firingOrder'] =
    said.firingOrder !== undefined
      ? { value: said.firingOrder, why: undefined }
      : { value: usual, why: usual && `a usual order of ${usual.length}` }
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

/**
 * Text of job.yaml for files about which little is known. Every guess is marked; what is not known is left empty.
 *
 * @param opened  ISO date taken for the day the job was opened
 */
export function draftJob(files: readonly DraftedFile[], answers: Answers, opened: string): string {
  const engine = guessEngine(files, answers)
  const captures = files.filter((f) => !isTrace(f))
  const traces = files.filter(isTrace)
  const order = engine.firingOrder.value
  const pairs =
    engine.ignition.value === 'wasted-spark' && order && order.length % 2 === 0
      ? [
          `  ${marked('pairs', { value: pairsOf(order), why: 'half the order apart' }, (p) => quoted(p).replaceAll(',', ', '))}`,
        ]
      : []
  return [
    'format: 1',
    marked('work_order', said(answers.workOrder)),
    marked('opened', { value: opened, why: 'the day of this draft' }, plainly),
    'shop:',
    `  ${marked('name', said(answers.shop))}`,
    'technician:',
    `  ${marked('name', said(answers.technician))}`,
    'vehicle:',
    `  ${marked('make', said(answers.make))}`,
    `  ${marked('model', said(answers.model))}`,
    'engine:',
    `  ${marked('cylinders', engine.cylinders, plainly)}`,
    `  ${marked('firing_order', engine.firingOrder, listed)}`,
    `  ${marked('ignition', engine.ignition, plainly)}`,
    ...pairs,
    `  ${marked('fuel', said(answers.fuel), plainly)}`,
    marked('complaint', said(answers.complaint)),
    'captures:',
    ...captures.flatMap((f) => draftRecording(f, engine)),
    ...(traces.length > 0 ? ['traces:', ...traces.flatMap((f) => draftRecording(f, engine))] : []),
    '',
  ].join('\n')
}

/** A slow trace lies under traces/. */
export const inItsFolder = (file: DraftedFile): DraftedFile =>
  isTrace(file) ? { ...file, file: file.file.replace(/^captures\//, 'traces/') } : file

/** Text of test-log.csv: the header, and rows that show how it is filled in. Their first cell keeps them from passing for tests. */
export const DRAFT_LOG = [
  'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome',
  ...[
    'trim,,,idle,STFT1,9.4,%,,,,,,',
    'spray,intake joint cylinder 2,,idle,propane,,,,,,,,response',
    'compression,,,cranking,cylinder 1,148,psi,130,,,,,',
    'repair,intake joint cylinder 2,,,,,,,,,,,fixed',
  ].map((row) => `EXAMPLE: delete this row,${row}`),
  '',
].join('\n')
