import type { JobOutcome } from '../batch/job-outcome.ts'
import type { SurveyedJob } from '../batch/survey.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { Teller } from './tell-outcomes.ts'

/** Work a job is beside its bytes, as bytes: drawing and writing. */
const FIXED_BYTES = 8 * 2 ** 20
const CLEAR_LINE = '\r\u001b[K'

/**
 * Keeps one line of progress on a terminal below what the teller writes: jobs done and failed, and the time left by the
 * share of the work that is done.
 */
export function withProgress(jobs: readonly SurveyedJob[], teller: Teller, texts: Texts): Teller {
  const startMs = performance.now()
  const weights = new Map(jobs.map((job) => [job.folder, job.bytes + FIXED_BYTES]))
  const whole = [...weights.values()].reduce((sum, weight) => sum + weight, 0)
  let [done, failed, worked, current] = [0, 0, 0, 0]
  const show = () => {
    const counts = { done, jobs: jobs.length, failed }
    const passedS = (performance.now() - startMs) / 1000
    const line =
      worked === 0
        ? say(texts, 'batch.progress', counts)
        : say(texts, 'batch.progress-left', {
            ...counts,
            left: duration((passedS * (whole - current - worked)) / worked, texts),
          })
    process.stderr.write(CLEAR_LINE + line)
  }
  show()
  return {
    told(outcome: JobOutcome) {
      process.stderr.write(CLEAR_LINE)
      teller.told(outcome)
      if (outcome.state === 'skipped') return // the call was stopped: nothing is done, and no time is left to tell
      const weight = weights.get(outcome.folder) ?? 0
      if (outcome.state === 'reported' && outcome.upToDate) current += weight
      else worked += weight
      done++
      if (outcome.state === 'invalid') failed++
      if (done < jobs.length) show()
    },
    end(outcomes) {
      process.stderr.write(CLEAR_LINE)
      teller.end(outcomes)
    },
  }
}

function duration(seconds: number, texts: Texts): string {
  return seconds < 90
    ? say(texts, 'batch.seconds', { seconds: Math.ceil(seconds) })
    : say(texts, 'batch.minutes', { minutes: Math.ceil(seconds / 60) })
}
