import { closeSync, openSync, readSync, statSync } from 'node:fs'
import { readCapture } from '../../../src/capture/read-capture.ts'
import { readJob } from '../../../src/job/read-job.ts'

/**
 * A process of its own: reads the first capture of a job folder several times, the bytes alone and then the whole reading
 * (read, hashed, decoded, clock and clipping checked), in turn, and prints what it took as JSON, least of the rounds.
 *
 *   node tests/bench/run.mjs speed/decode-child <job-folder> <rounds>
 */
const [folder, rounds] = [process.argv[2]!, Number(process.argv[3])]
const { job, files } = await readJob(folder)
const entry = job.captures[0]!
const path = files.get(entry.file)!
const buffer = Buffer.alloc(512 * 1024)
const least = { bytesMs: Infinity, wallMs: Infinity, cpuMs: Infinity }

for (let round = 0; round < rounds; round++) {
  let startMs = performance.now()
  const file = openSync(path, 'r')
  while (readSync(file, buffer, 0, buffer.length, null) > 0);
  closeSync(file)
  least.bytesMs = Math.min(least.bytesMs, performance.now() - startMs)
  startMs = performance.now()
  const before = process.cpuUsage()
  await readCapture(path, entry)
  const { user, system } = process.cpuUsage(before)
  least.wallMs = Math.min(least.wallMs, performance.now() - startMs)
  least.cpuMs = Math.min(least.cpuMs, (user + system) / 1000)
}
process.stdout.write(JSON.stringify({ ...least, megabytes: statSync(path).size / 1e6 }))
