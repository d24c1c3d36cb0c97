import { printLine, tellLine } from '../print-line.ts'
import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import { DANGER_WORDS, type Danger } from '../../job/dangers.ts'
import { withoutLast, withRows } from '../../job/edit-log.ts'
import { daysOfJob } from '../../job/job-days.ts'
import type { Inspection } from '../../job/inspect-job.ts'
import type { Step } from '../../job/log-steps.ts'
import { JOB_FILE, LOG_FILE } from '../../job/own-files.ts'
import { near } from '../../problems/nearest.ts'
import type { Problem } from '../../problems/problem.ts'
import type { Texts, WordKey } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { problemSentence } from '../../texts/say-problem.ts'
import type { SpokenRow } from '../../test-log/spoken.ts'
import { EXIT } from '../exit-codes.ts'
import { talkOn, Interrupted } from '../talk.ts'
import { UsageError } from '../usage-error.ts'
import { lineTexts } from '../terminal.ts'
import { failNew } from './new.ts'

interface LogArgs {
  words: string[]
}

/** `burnline log [folder] <words...>`: a test done at the car, in the words of the trade, as rows of test-log.csv. */
export const logCommand: CommandModule<object, LogArgs> = {
  command: 'log [words..]',
  describe: 'Log a test in the words of the trade; without words, one after the other.',
  builder: (y) =>
    y
      .positional('words', {
        type: 'string',
        array: true,
        default: [],
        describe: 'The job folder, where it is not the one you stand in, then the test; or undo',
      })
      // A trim of -5 and a place called "--" are words, and no options.
      .parserConfiguration({ 'unknown-options-as-args': true, 'parse-positional-numbers': false })
      .example('$0 log KB-26-0417 spray "runner 2 joint" response', '')
      .example('$0 log KB-26-0417 trim STFT1 11.7 LTFT1 8 idle', '')
      .example('$0 log KB-26-0417 compression 150 145 92 150 psi', 'cylinders 1 to 4')
      .example('$0 log KB-26-0417 spray "runner 2 joint" trace spray-1.csv 30 36 at 9:20', '')
      .example('$0 log KB-26-0417 repair "runner 2 joint" fixed note joint renewed', '')
      .example('$0 log KB-26-0417 undo', 'takes the last test out')
      .example('$0 log KB-26-0417', 'one test a line, until an empty one') as never,
  handler: async ({ words }) => {
    const texts = lineTexts()
    const here = existsSync(JOB_FILE)
    const named = words[0] !== undefined && existsSync(join(words[0], JOB_FILE))
    if (!named && !here) {
      const { stepMeant } = await import('../../job/step-words.ts')
      throw new UsageError(
        words[0] === undefined
          ? 'Name the job folder, or stand in it: burnline log KB-26-0417'
          : stepMeant(words[0]) !== undefined
            ? `Name the job folder before the test, or stand in it: burnline log KB-26-0417 ${words[0]}`
            : `${words[0]} is no job folder (it holds no ${JOB_FILE}), and you stand in none.`,
      )
    }
    const folder = named ? words[0]! : '.'
    const said = named ? words.slice(1) : words
    try {
      const log = new LogBook(texts, folder)
      if (said.length > 0) {
        if (!(await log.take(said))) process.exitCode = EXIT.usage
        return
      }
      const terminal = process.stdin.isTTY === true && process.stderr.isTTY === true
      await talkOn(
        { input: process.stdin, output: process.stderr, ...(terminal ? { terminal } : {}) },
        async (ask) => {
          for (;;) {
            const line = await ask(say(texts, 'log.ask'))
            if (line === '' || /^(?:done|quit|exit|q)$/i.test(line)) return
            const first = partsOf(line)
            const only = await log.stepAlone(first)
            const more = only
              ? partsOf(await ask(say(texts, 'log.ask-more', { example: say(texts, EXAMPLES[only]) })))
              : []
            if (only && more.length === 0 && only !== 'note') continue
            if (!(await log.take([...first, ...more]))) process.exitCode = EXIT.usage
          }
        },
      )
    } catch (cause) {
      if (cause instanceof Interrupted) process.exitCode = EXIT.interrupted
      else failNew(texts, folder, cause)
    }
  },
}

/** What is said after each step, as an example. */
const EXAMPLES: Readonly<Record<Step, WordKey>> = {
  spray: 'log.example.place',
  cap: 'log.example.place',
  uncap: 'log.example.place',
  smoke: 'log.example.smoke',
  trim: 'log.example.trim',
  gas: 'log.example.gas',
  'fuel-pressure': 'log.example.fuel-pressure',
  'fuel-sample': 'log.example.fuel-sample',
  vacuum: 'log.example.vacuum',
  'back-pressure': 'log.example.back-pressure',
  compression: 'log.example.compression',
  'leak-down': 'log.example.leak-down',
  'power-drop': 'log.example.power-drop',
  code: 'log.example.code',
  airflow: 'log.example.airflow',
  'air-meter': 'log.example.air-meter',
  'oxygen-sensor': 'log.example.part',
  'coolant-sensor': 'log.example.coolant-sensor',
  'exhaust-joints': 'log.example.joints',
  command: 'log.example.command',
  timing: 'log.example.timing',
  'secondary-resistance': 'log.example.resistance',
  'primary-resistance': 'log.example.resistance',
  'cap-and-rotor': 'log.example.worn',
  plugs: 'log.example.worn',
  'injector-balance': 'log.example.injector',
  swap: 'log.example.swap',
  repair: 'log.example.repair',
  photo: 'log.example.note',
  note: 'log.example.note',
}

/** A typed line in words; quotes keep words together. */
export const partsOf = (line: string): string[] =>
  [...line.matchAll(/["\u201c\u201e]([^"\u201c\u201d]*)["\u201d\u201c]|(\S+)/g)].map((m) => m[1] ?? m[2]!)

/** The log of one job, read anew for each test: somebody may have an editor open beside it. */
class LogBook {
  readonly #texts: Texts
  readonly #folder: string
  readonly #shown = new Set<Danger>()

  constructor(texts: Texts, folder: string) {
    this.#texts = texts
    this.#folder = folder
  }

  #out(line: string): void {
    printLine(line)
  }
  #err(line: string): void {
    tellLine(line)
  }

  /** The step, where nothing but a step is said: its cautions are shown before the rest is asked for. */
  async stepAlone(words: readonly string[]): Promise<Step | undefined> {
    const { stepMeant } = await import('../../job/step-words.ts')
    const step = stepMeant(words.join(' '))
    if (step !== undefined) await this.#caution(step)
    return step
  }

  async #caution(step: Step): Promise<void> {
    const { STEP_KINDS } = await import('../../test-log/steps/index.ts')
    const dangers = STEP_KINDS[step].cautions.filter((d) => !this.#shown.has(d))
    for (const danger of dangers) {
      this.#shown.add(danger)
      const { title, says } = DANGER_WORDS[danger]
      this.#err(`${say(this.#texts, title)}. ${say(this.#texts, says)}`)
    }
    if (dangers.length > 0) this.#err(say(this.#texts, 'log.precedence'))
  }

  /** Takes one test, or `undo`. @returns false where it was not understood, and nothing was written */
  async take(words: readonly string[]): Promise<boolean> {
    const { inspectJob } = await import('../../job/inspect-job.ts')
    const job = await inspectJob(resolve(this.#folder))
    if (words.length === 1 && /^(?:undo|back|zur\u00fcck|annuler|deshacer)$/i.test(words[0]!))
      return this.#undo(job)
    return this.#add(job, words)
  }

  async #add(job: Inspection, words: readonly string[]): Promise<boolean> {
    const { readSpoken } = await import('../../test-log/spoken.ts')
    const { inZone } = await import('../../files/new-folder.ts')
    const spoken = readSpoken(words, {
      now: inZone(new Date()),
      days: daysOfJob(job.job),
      cylinders: job.job?.engine.cylinders ?? 0,
      repaired: job.log.some(({ cells }) => cells['step']?.trim().toLowerCase() === 'repair'),
    })
    if (spoken.kind === 'no-step') {
      const { STEP_NAMES } = await import('../../job/step-words.ts')
      const nearest = near(words[0]!, STEP_NAMES.keys())
      const found = { words: spoken.found }
      this.#err(
        nearest === ''
          ? say(this.#texts, 'log.no-step-alone', { found })
          : say(this.#texts, 'log.no-step', { found, nearest }),
      )
      return false
    }
    if (spoken.kind === 'time-unread') {
      this.#err(say(this.#texts, 'log.time-unread', { found: { words: spoken.found } }))
      return false
    }
    if (spoken.kind === 'time-open') {
      this.#err(
        say(this.#texts, 'log.time-open', { found: { words: spoken.found }, meant: spoken.meant.join(', ') }),
      )
      return false
    }
    await this.#caution(spoken.step)
    const text = await this.#text()
    const problems = await this.#problemsOf(job, spoken.rows)
    const said = problems.map(
      (p) =>
        `  ${p.severity === 'refuse' ? 'error' : 'note'}: ${problemSentence(this.#texts, p)} [${p.code}]`,
    )
    for (const line of new Set(said)) this.#err(line)
    if (problems.some((p) => p.severity === 'refuse')) {
      const example = say(this.#texts, EXAMPLES[spoken.step])
      this.#err(say(this.#texts, 'log.not-written', { step: spoken.step, example }))
      return false
    }
    await this.#write(job, withRows(text, spoken.rows))
    this.#out(say(this.#texts, 'log.understood', { test: { words: await this.#inWords(spoken.rows) } }))
    return true
  }

  async #text(): Promise<string> {
    const path = join(this.#folder, LOG_FILE)
    if (!existsSync(path)) return ''
    const { readRegular } = await import('../../files/regular-file.ts')
    return (await readRegular(path)).toString('utf8')
  }

  async #write(job: Inspection, text: string): Promise<void> {
    const { replaceText } = await import('../../files/new-folder.ts')
    await replaceText(join(job.folder, LOG_FILE), text)
  }

  /** What a report would say of these rows. */
  async #problemsOf(job: Inspection, rows: readonly SpokenRow[]): Promise<Problem[]> {
    const { readEntries } = await import('../../test-log/log-entry.ts')
    const { checkEntries } = await import('../../test-log/check-entries.ts')
    const { problem } = await import('../../problems/problem.ts')
    const read = readEntries(rows.map((cells) => ({ line: 1, cells: cells as Record<string, string> })))
    const entries = read.flatMap(({ entry }) => entry ?? [])
    const traces = [...(job.job?.traces ?? []), ...(job.job?.captures ?? [])].map(({ file }) => file)
    const unknown = entries.flatMap(({ trace }) =>
      trace === undefined || traces.includes(trace)
        ? []
        : [problem('missing-file', { file: LOG_FILE }, { path: trace, nearest: near(trace, traces) })],
    )
    return [
      ...read.flatMap(({ problems }) => problems),
      ...unknown,
      ...checkEntries(entries, { job: job.job, source: undefined }),
    ]
  }

  async #undo(job: Inspection): Promise<boolean> {
    const without = withoutLast(await this.#text())
    if (!without) {
      this.#err(say(this.#texts, 'log.nothing'))
      return false
    }
    await this.#write(job, without.text)
    const rows = without.rows.map((cells) => cells.filter((cell) => cell !== '').join(', '))
    this.#out(say(this.#texts, 'log.undone', { test: { words: rows.join(' | ') } }))
    return true
  }

  /** A test as it was understood: what any row shares, then each reading. */
  async #inWords(rows: readonly SpokenRow[]): Promise<string> {
    const { STEP_KINDS } = await import('../../test-log/steps/index.ts')
    const [first] = rows as [SpokenRow]
    const about = [
      `${first.at!.slice(0, 10)} ${first.at!.slice(11, 16)}  ${say(this.#texts, STEP_KINDS[first.step as Step].title)}`,
      first.place,
      first.stage,
      first.condition,
    ].filter((part) => part !== undefined)
    const readings = rows.map(({ reading, value, unit }) =>
      [reading, value, unit].filter((p) => p !== undefined).join(' '),
    )
    const limits =
      first.expected_low === undefined ? undefined : `${first.expected_low} \u2026 ${first.expected_high}`
    const trace =
      first.trace === undefined
        ? undefined
        : [first.trace, first.from_s, first.to_s].filter((p) => p !== undefined).join(' ')
    const rest = [...readings.filter((r) => r !== ''), limits, trace, first.outcome, first.note].filter(
      (p) => p !== undefined && p !== '',
    )
    return `${about.join(', ')}${rest.length > 0 ? `: ${rest.join(', ')}` : ''}`
  }
}
