import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { damageSmallJob } from './fuzz/damage-job.ts'
import { readerNamed, READERS } from './fuzz/fuzz-readers.ts'
import { fuzzReader, LONGEST_MS, type FuzzFinding, type FuzzTotals } from './fuzz/run-fuzz.ts'

/**
 *   npm run fuzz                                      every reader, 200 000 mutated inputs each, then the damaged job
 *   npm run fuzz -- --reader capture --count 20000    one reader, fewer
 *   npm run fuzz -- --reader capture --from 1234 --count 1     one case again
 *   npm run fuzz -- --reader damaged-job --step 10             its captures cut at every tenth byte only
 *
 * Each reader runs in a thread of its own, so that an input that never ends is seen and named. Inputs of findings are
 * kept in a folder that is printed; the exit code is 1 when there is any.
 */
const PARTS = [...READERS, 'damaged-job']
const COUNT = 200_000
/** Bit flips and prefixes of the damaged job are these, whatever the count, unless fewer are asked for. */
const FLIPS = 10_000

/** An input that takes no processor time but does not end either is given up after this, ms. */
const WAITS_MS = 600_000

/** Processor time of this process, ms: on a machine that does other things a clock would call slow what only waits its turn. */
function cpuMs(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

/** Cases begun, as the thread writes them into shared memory; the number of the one being read. */
interface Task {
  part: string
  from: number
  to: number
  scratch: string
  begun: SharedArrayBuffer
  captureStep: number
}

if (isMainThread) await main()
else await work(workerData as Task)

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      reader: { type: 'string' },
      count: { type: 'string' },
      from: { type: 'string' },
      step: { type: 'string' },
    },
  })
  const parts = values.reader === undefined ? PARTS : PARTS.filter((part) => part === values.reader)
  if (parts.length === 0) throw new Error(`no reader ${values.reader}; there are ${PARTS.join(', ')}`)
  const kept = mkdtempSync(join(tmpdir(), 'burnline-fuzz-'))
  let found = 0
  for (const part of parts) {
    const from = Number(values.from ?? 0)
    const count = Number(values.count ?? (part === 'damaged-job' ? FLIPS : COUNT))
    const totals = await watched({
      part,
      from,
      to: from + count,
      scratch: join(kept, part),
      begun: new SharedArrayBuffer(8),
      captureStep: Number(values.step ?? 1),
    })
    totals.findings.forEach((finding) => keep(kept, finding))
    found += totals.findings.length
  }
  if (found === 0) rmSync(kept, { recursive: true, force: true })
  else process.stdout.write(`inputs of findings: ${kept}\n`)
  process.exitCode = found === 0 ? 0 : 1
}

/** Runs a part in a thread, and ends it when one input takes too long. */
function watched(task: Task): Promise<FuzzTotals> {
  mkdirSync(task.scratch, { recursive: true })
  const begun = new Int32Array(task.begun)
  const start = performance.now()
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./run.mjs', import.meta.url), { argv: ['fuzz'], workerData: task })
    let last = { at: -1, sinceMs: start, sinceCpuMs: cpuMs() }
    const watch = setInterval(() => {
      const now = performance.now()
      if (begun[0] !== last.at) last = { at: begun[0]!, sinceMs: now, sinceCpuMs: cpuMs() }
      else if (cpuMs() - last.sinceCpuMs > 2 * LONGEST_MS || now - last.sinceMs > WAITS_MS)
        done(hung(task, last.at))
    }, 1000)
    const done = (totals: FuzzTotals): void => {
      clearInterval(watch)
      void worker.terminate()
      print(totals, { count: task.to - task.from, tookS: (performance.now() - start) / 1000 })
      resolve(totals)
    }
    worker.on('message', done)
    worker.on('error', (cause) => {
      clearInterval(watch)
      reject(cause)
    })
  })
}

function hung({ part }: Task, at: number): FuzzTotals {
  const what = `does not end within ${2 * LONGEST_MS} ms of processor time, or waits ${WAITS_MS} ms`
  return {
    reader: part,
    ends: { right: 0, flagged: 0, refused: 0 },
    slowestMs: Infinity,
    findings: [{ reader: part, at, seed: '?', what, bytes: Buffer.alloc(0) }],
  }
}

function print(
  { reader, ends, slowestMs, findings }: FuzzTotals,
  { count, tookS }: { count: number; tookS: number },
): void {
  const { right, flagged, refused } = ends
  process.stdout.write(
    `${reader.padEnd(12)} inputs ${right + flagged + refused + findings.length} (asked ${count})  read ${right}  read with remarks ${flagged}  refused ${refused}  ` +
      `findings ${findings.length}  slowest ${Math.round(slowestMs)} ms  took ${Math.round(tookS)} s\n`,
  )
  for (const { at, seed, what } of findings.slice(0, 20))
    process.stdout.write(`    case ${at} (${seed}): ${what}\n`)
}

function keep(folder: string, { reader, at, bytes, what }: FuzzFinding): void {
  writeFileSync(join(folder, `${reader}-${at}.input`), bytes)
  writeFileSync(join(folder, `${reader}-${at}.txt`), `${what}\n`)
}

async function work({ part, from, to, scratch, begun, captureStep }: Task): Promise<void> {
  const counter = new Int32Array(begun)
  const about = {
    texts: loadTexts('en'),
    nowMs: cpuMs,
    told: (at: number) => {
      counter[0] = at
    },
  }
  const totals =
    part === 'damaged-job'
      ? await damageSmallJob(scratch, { flips: to - from, captureStep, ownStep: 1 }, about)
      : await fuzzReader(readerNamed(part, scratch), { from, to }, about)
  parentPort!.postMessage(totals)
}
