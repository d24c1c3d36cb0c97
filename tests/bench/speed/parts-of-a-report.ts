import { openSync, readSync, closeSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { nodeCommand, timed, type Taken } from './timed.ts'

const RUNNER = fileURLToPath(new URL('../run.mjs', import.meta.url))
const verdict = (met: boolean) => (met ? 'met' : 'not met')

const DECODE_GOAL_MBPS = 250
/** Speed of reading one large capture, beside reading its bytes alone in the same process. */
export function sayDecoding(folder: string, rounds: number): string {
  const run = JSON.parse(
    timed(nodeCommand(RUNNER, ['speed/decode-child', folder, String(rounds)])).stdout,
  ) as { bytesMs: number; wallMs: number; cpuMs: number; megabytes: number }
  const perS = (ms: number) => (run.megabytes / ms) * 1000
  return [
    `decoding ${run.megabytes.toFixed(0)} MB of time and two channels, least of ${rounds}`,
    `  ${perS(run.wallMs).toFixed(0)} MB/s (goal ${DECODE_GOAL_MBPS}: ${verdict(perS(run.wallMs) >= DECODE_GOAL_MBPS)}), ${perS(run.cpuMs).toFixed(0)} MB a second of processor time; ` +
      `bytes alone ${perS(run.bytesMs).toFixed(0)} MB/s; ratio ${(run.wallMs / run.bytesMs).toFixed(1)}`,
  ].join('\n')
}

/** Processor time of reading one long export in a new process, against its goal, and of a whole report of it. */
export function sayReading(
  way: string,
  { folder, goalS, report }: { folder: string; goalS: number; report: () => Taken },
): string {
  const run = JSON.parse(timed(nodeCommand(RUNNER, ['speed/decode-child', folder, '1'])).stdout) as {
    cpuMs: number
    megabytes: number
  }
  const whole = report()
  return [
    `reading ${run.megabytes.toFixed(0)} MB of ${way}, once in a new process`,
    `  ${(run.cpuMs / 1000).toFixed(1)} s of processor time (goal ${goalS}: ${verdict(run.cpuMs < 1000 * goalS)}); its whole report ${whole.cpuS.toFixed(1)} s, peak ${whole.peakMib.toFixed(0)} MiB`,
  ].join('\n')
}

const DOCUMENT_GOAL_S = 0.4
const SIZE_GOAL_MB = 1.5
/** Processor time of charts and PDF in a warm process, and the size of the PDF. */
export function sayDocument(folder: string, rounds: number): string {
  const run = JSON.parse(
    timed(nodeCommand(RUNNER, ['speed/document-child', folder, String(rounds)])).stdout,
  ) as { leastMs: number; medianMs: number; pdfBytes: number; photos: number }
  const [leastS, megabytes] = [run.leastMs / 1000, run.pdfBytes / 1e6]
  return [
    `charts and PDF of ${basename(folder)}, warm, processor time of all threads, ${rounds - 1} times`,
    `  least ${leastS.toFixed(2)} s (goal ${DOCUMENT_GOAL_S}: ${verdict(leastS < DOCUMENT_GOAL_S)}), median ${(run.medianMs / 1000).toFixed(2)} s; ` +
      `PDF ${megabytes.toFixed(2)} MB with ${run.photos} photos (goal without ${SIZE_GOAL_MB}: ${verdict(megabytes < SIZE_GOAL_MB)})`,
  ].join('\n')
}

/** One command of its own process, least of some runs, against its goal in seconds. */
export function sayCommand(
  what: string,
  runs: number,
  { args, goalS }: { args: readonly string[]; goalS: number },
): string {
  const taken = Array.from({ length: runs }, () => timed(nodeCommand(args[0]!, args.slice(1))))
  const [wallS, cpuS] = [Math.min(...taken.map((t) => t.wallS)), Math.min(...taken.map((t) => t.cpuS))]
  return `${what}, least of ${runs}: ${wallS.toFixed(2)} s wall (goal ${goalS}: ${verdict(wallS < goalS)}), CPU ${cpuS.toFixed(2)} s, peak ${Math.max(...taken.map((t) => t.peakMib)).toFixed(0)} MiB`
}

/** The first bytes of a capture, whole lines of them, in a file of its own. */
export function firstBytes(capture: string, into: string, bytes: number): string {
  const buffer = Buffer.alloc(bytes)
  const file = openSync(capture, 'r')
  const length = readSync(file, buffer, 0, bytes, 0)
  closeSync(file)
  const path = join(into, `first-${bytes}.csv`)
  writeFileSync(path, buffer.subarray(0, buffer.lastIndexOf('\n', length - 1) + 1))
  return path
}
