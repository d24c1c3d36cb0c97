import { resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import type { SurveyedJob } from '../../batch/survey.ts'
import type { Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { readPart } from '../part.ts'
import { enterOutcomes } from '../enter-ledger.ts'
import { EXIT } from '../exit-codes.ts'
import { FAIL_ON, failedBy, type FailOn } from '../fail-on.ts'
import { exitCodeOf } from '../print-problems.ts'
import { readHandedIn } from '../read-handed-in.ts'
import { readSigning } from '../read-key.ts'
import { readingGiven } from '../read-limits.ts'
import { readWriting, WRITING_OPTIONS, type WritingArgs } from '../read-shop.ts'
import { withProgress } from '../progress.ts'
import { COPIES, NEAR_OPTION, REDACT_HELP, redactJobs } from '../redact-jobs.ts'
import { stopOnSignals } from '../stop-signals.ts'
import { inOrder, jsonTeller, plainTeller, type Teller } from '../tell-outcomes.ts'
import { forLines } from '../terminal.ts'
import { UsageError } from '../usage-error.ts'
import { VERSION } from '../version.ts'

interface ReportArgs extends WritingArgs {
  folders: string[] | undefined
  list: string | undefined
  part: string | undefined
  out: string | undefined
  redact: string | undefined
  near: 'ask' | 'mask' | 'keep'
  captures: boolean
  replaces: string | undefined
  limits: string | undefined
  causes: string | undefined
  proof: string | undefined
  key: string | undefined
  'signed-at': string | undefined
  ledger: string | undefined
  jobs: number | undefined
  memory: number | undefined
  force: boolean
  why: boolean
  'fail-on': FailOn | undefined
  json: boolean
}

/** JavaScript heap of one job where --memory does not say, MiB: many times what a report of usual size takes. */
const HEAP_MIB = 1024
/** Share of the memory this process may use at which work is given up rather than the whole process lost. */
const MEMORY_SHARE = 0.85

/** Folder of the reports where none is named. */
const OUTPUTS = 'outputs'

/** `burnline report <job-folder>...`: one report a job; one line a job with its verdict and where the PDF is. */
export const reportCommand: CommandModule<object, ReportArgs> = {
  command: 'report [folders..]',
  describe: 'Report job folders: one folder of PDF, JSON and CSV each.',
  builder: (y) =>
    y
      .positional('folders', { type: 'string', array: true, describe: 'Job folders, or folders of them' })
      .option('out', {
        type: 'string',
        describe: `Folder that receives one folder a work order; default: ${OUTPUTS}, of copies ${COPIES}`,
      })
      .options(WRITING_OPTIONS)
      .option('replaces', {
        type: 'string',
        describe:
          'An earlier output, or a folder of them, that stays where it is: reissue its reports under --out, saying what changed',
      })
      .option('captures', { type: 'boolean', default: false, describe: 'Embed the raw captures in the PDF' })
      .option('limits', {
        type: 'string',
        describe:
          'YAML file of limits the shop sets itself (key: value), of judging and of reading; the report says which it was judged by',
      })
      .option('causes', {
        type: 'string',
        describe:
          'YAML file of entries of templates/causes.yaml the shop weighs its own way; the report says which',
      })
      .option('proof', {
        type: 'string',
        describe: 'Proof file to be quoted in the report (`burnline prove` makes one)',
      })
      .option('key', {
        type: 'string',
        describe: 'The shop’s private key: sign the report (`burnline key` makes one)',
      })
      .option('signed-at', {
        type: 'string',
        describe:
          'Date of signing that readers of PDF files show, YYYY-MM-DD; default: the day the job was closed',
      })
      .option('ledger', {
        type: 'string',
        describe: 'Enter the digests of the reports into this file, which only grows',
      })
      .option('redact', {
        type: 'string',
        describe: `Write copies without some words instead, as \`burnline redact\` does. ${REDACT_HELP}`,
      })
      .options(NEAR_OPTION)
      .option('jobs', {
        type: 'number',
        describe: 'Jobs at the same time; default: the processors this process may use',
      })
      .option('memory', {
        type: 'number',
        describe: `JavaScript heap one of several jobs may take, MiB; default ${HEAP_MIB}`,
      })
      .option('force', {
        type: 'boolean',
        default: false,
        describe: 'Make reports that are up to date as well',
      })
      .option('why', {
        type: 'boolean',
        default: false,
        describe: 'Say what changed since the report that stood',
      })
      .option('fail-on', {
        choices: FAIL_ON,
        describe:
          'Exit 1 where the engine as it is now has a fault, or at least a suspected one, or is at least not known to be in order; manifest.json records the rule',
      })
      .option('json', { type: 'boolean', default: false, describe: 'One JSON object a line and job' })
      .option('list', {
        type: 'string',
        describe: 'Take the folders from a file written by `burnline list --json`',
      })
      .option('part', { type: 'string', describe: 'i/n: only part i of n, split by size' })
      .example('$0 report KB-26-0417', 'outputs/KB-26-0417/report.pdf')
      .example('$0 report inputs --out outputs --language de --page A4', 'every job of a folder')
      .example('$0 report KB-26-0417 --fail-on fault', 'for a script: exit 1 where a fault is left') as never,
  handler: async (args) => {
    const jobs = await jobsOf(args)
    if (args.redact !== undefined && args['fail-on'] !== undefined)
      throw new UsageError('--fail-on is for reports, not for redacted copies of them')
    if (args.redact !== undefined)
      return redactJobs({
        ...args,
        redact: args.redact,
        out: args.out ?? COPIES,
        folders: jobs.map((job) => job.folder),
      })
    const { machineLimits } = await import('../../batch/machine-limits.ts')
    const machine = machineLimits()
    const workers = args.jobs ?? machine.cpus
    const outRoot = resolve(args.out ?? OUTPUTS)
    const { texts, ...written } = await readWriting(args)
    const { runBatch } = await import('../../batch/run-batch.ts')
    const signing = readSigning({ key: args.key, signedAt: args['signed-at'] })
    const lines = args.json ? texts : forLines(texts)
    const teller = tellerOf(args, jobs, lines)
    const stopping = stopOnSignals(() => process.stderr.write(`burnline: ${say(lines, 'batch.stopping')}\n`))
    const outcomes = await runBatch(jobs, {
      outRoot,
      texts,
      options: {
        ...written,
        version: VERSION,
        embedCaptures: args.captures,
        ...signing,
        ...readHandedIn(args),
        ...(args.replaces === undefined ? {} : { replaces: resolve(args.replaces) }),
        ...(args['fail-on'] === undefined ? {} : { failOn: args['fail-on'] }),
      },
      workers,
      heapMib: args.memory ?? HEAP_MIB,
      memoryBytes: MEMORY_SHARE * machine.memoryBytes,
      force: args.force,
      allChanges: args.why,
      stop: stopping.signal,
      told: (outcome: JobOutcome) => teller.told(outcome),
    })
    const rule = args['fail-on']
    const failed = rule === undefined ? [] : failedBy(rule, outcomes)
    teller.end(outcomes, rule === undefined ? undefined : { rule, failed })
    stopping.release()
    process.exitCode = exitCodeOf(outcomes, stopping.by())
    if (process.exitCode === EXIT.done && failed.length > 0) process.exitCode = EXIT.ruleMet
    if (args.ledger !== undefined) await enterOutcomes(args.ledger, outcomes, { texts, ...signing })
  },
}

/** The jobs of this call, in the order given: of the folders named or of a list, the whole or one part. */
async function jobsOf({ folders, list, part, limits, jobs, memory }: ReportArgs): Promise<SurveyedJob[]> {
  for (const [name, value] of Object.entries({ jobs, memory })) {
    if (value !== undefined && !(Number.isInteger(value) && value > 0))
      throw new UsageError(`--${name} takes a whole number above 0`)
  }
  if (!folders?.length === (list === undefined))
    throw new UsageError('Name job folders, or a list with --list.')
  const { survey } = await import('../../batch/survey.ts')
  const { jobFolders } = await import('../../batch/list-jobs.ts')
  const { partOf } = await import('../../batch/split.ts')
  const { readList } = await import('../read-list.ts')
  const all = list === undefined ? survey(jobFolders(folders!), readingGiven(limits)) : readList(list)
  return part === undefined ? all : partOf(all, readPart(part))
}

/** On a terminal lines come as jobs end; elsewhere in the order of the folders, so that two runs can be compared. */
function tellerOf({ json, why }: ReportArgs, jobs: readonly SurveyedJob[], texts: Texts): Teller {
  const folders = jobs.map((job) => job.folder)
  if (json) return inOrder(folders, jsonTeller({ texts }))
  const plain = plainTeller({ texts, why })
  if (jobs.length > 1 && process.stderr.isTTY)
    return withProgress(jobs, process.stdout.isTTY ? plain : inOrder(folders, plain), texts)
  return process.stdout.isTTY ? plain : inOrder(folders, plain)
}
