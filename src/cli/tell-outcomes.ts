import { relative } from 'node:path'
import { tallyOf, type JobOutcome } from '../batch/job-outcome.ts'
import type { Why } from '../batch/up-to-date.ts'
import { visible } from '../problems/control-characters.ts'
import type { Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { problemSentence } from '../texts/say-problem.ts'
import { sentence, type Sentence } from '../texts/messages.ts'
import { withPlainSigns } from '../texts/plain-signs.ts'
import { say } from '../texts/say.ts'
import { jsonText } from './print-json.ts'
import { printLine, tellLine } from './print-line.ts'
import { printProblems } from './print-problems.ts'

/** Tells how the jobs of a call end. */
export interface Teller {
  told(outcome: JobOutcome): void
  /** Called once, with the outcomes of all jobs, and which of them the rule of the call fails. */
  end(outcomes: readonly JobOutcome[], ruled?: Ruled): void
}

/** A rule of `--fail-on`, and the work orders that meet it. */
interface Ruled {
  rule: string
  failed: readonly string[]
}

interface Told {
  texts: Texts
  /** Say why a job was made. */ why: boolean
}

const shown = (path: string) => relative(process.cwd(), path) || '.'

/** One line a job on standard output, its problems on standard error; more than one job end with a line of their count. */
export function plainTeller({ texts, why }: Told): Teller {
  return {
    told(outcome) {
      process.stdout.write(`${lineOf(outcome, texts)}\n`)
      if (outcome.state === 'reported') {
        if (why && outcome.why.length > 0)
          printLine(`  ${say(texts, 'batch.why', { reasons: reasonsOf(outcome, texts).join('; ') })}`)
        printProblems(texts, outcome.folder, outcome.warnings)
        for (const { stage, cylinders, why } of outcome.unjudged)
          tellLine(
            `  ${say(texts, UNJUDGED[stage], { cylinders: cylinders.join(', '), why: { words: texts.plain ? withPlainSigns(why.join(' ')) : why.join(' ') } })}`,
          )
      }
      if (outcome.state === 'invalid') printProblems(texts, outcome.folder, outcome.problems, outcome.stack)
    },
    end(outcomes, ruled) {
      if (outcomes.length > 1)
        process.stdout.write(`${say(texts, 'batch.total', { ...tallyOf(outcomes) })}\n`)
      if (ruled && ruled.failed.length > 0) {
        const { rule, failed } = ruled
        const said = {
          rule,
          count: failed.length,
          jobs: outcomes.length,
          orders: { words: failed.join(', ') },
        }
        tellLine(say(texts, 'batch.failed', said))
      }
    },
  }
}

const UNJUDGED = { before: 'batch.unjudged.before', after: 'batch.unjudged.after' } as const
const NOT_REPORTED = { invalid: 'batch.invalid', skipped: 'batch.skipped' } as const

function lineOf(outcome: JobOutcome, texts: Texts): string {
  if (outcome.state !== 'reported')
    return `${visible(outcome.folder)}  ${say(texts, NOT_REPORTED[outcome.state])}`
  const { workOrder, verdict, output, upToDate } = outcome
  return [
    workOrder,
    texts.plain ? withPlainSigns(verdict) : verdict,
    `${shown(output)}/report.pdf`,
    ...(upToDate ? [say(texts, 'batch.up-to-date')] : []),
  ]
    .map(visible)
    .join('  ')
}

/** Why a report is due. */
function reason(why: Why): Sentence {
  switch (why.code) {
    case 'new':
      return sentence('why.new')
    case 'forced':
      return sentence('why.forced')
    case 'program':
      return sentence('why.program')
    case 'input':
      return sentence('why.input', why.args)
    case 'output':
      return sentence('why.output', why.args)
    case 'template':
      return sentence('why.template', why.args)
    case 'limit':
      return sentence('why.limit', why.args)
    case 'option':
      return sentence('why.option', why.args)
  }
}

const reasonsOf = (outcome: JobOutcome & { state: 'reported' }, texts: Texts): string[] =>
  outcome.why.map((why) => say(texts, reason(why)))

/** One JSON object a line and job; the last line has the count under `total`. Nothing else is written. */
export function jsonTeller({ texts }: Pick<Told, 'texts'>): Teller {
  const line = (value: unknown) => process.stdout.write(`${jsonText(value)}\n`)
  return {
    told: (outcome) => line(recordOf(outcome, texts)),
    end(outcomes, ruled) {
      const { upToDate, ...total } = tallyOf(outcomes)
      line({
        total: {
          ...total,
          up_to_date: upToDate,
          ...(ruled === undefined ? {} : { fail_on: ruled.rule, failed: ruled.failed }),
        },
      })
    },
  }
}

function recordOf(outcome: JobOutcome, texts: Texts): object {
  const { folder, state } = outcome
  const problems = (list: readonly Problem[]) =>
    list.map((p) => ({
      code: p.code,
      severity: p.severity,
      file: p.file,
      line: p.line ?? null,
      text: problemSentence(texts, p),
    }))
  switch (outcome.state) {
    case 'skipped':
      return { folder, state }
    case 'invalid':
      return { folder, state, problems: problems(outcome.problems) }
    case 'reported':
      return {
        folder,
        state,
        work_order: outcome.workOrder,
        verdict: outcome.verdict,
        output: shown(outcome.output),
        up_to_date: outcome.upToDate,
        why: reasonsOf(outcome, texts),
        problems: problems(outcome.warnings),
        not_judged: outcome.unjudged,
      }
  }
}

/** Tells the outcomes in the order of the folders: each as soon as all before it are told. */
export function inOrder(folders: readonly string[], teller: Teller): Teller {
  const ready = new Map<string, JobOutcome[]>()
  let next = 0
  return {
    told(outcome) {
      ready.set(outcome.folder, [...(ready.get(outcome.folder) ?? []), outcome])
      for (let folder = folders[next]; folder !== undefined; folder = folders[++next]) {
        const first = ready.get(folder)?.shift()
        if (!first) return
        teller.told(first)
      }
    },
    end: (outcomes, ruled) => teller.end(outcomes, ruled),
  }
}
