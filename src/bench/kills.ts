import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { appendFileSync, cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { makeRandom } from '../maths/random.ts'

/**
 *   npm run kills                      500 runs of the report command, each killed at a random moment
 *   npm run kills -- --kills 50 --seed 3
 *
 * Before each run an input changes, so that every run has work to do. After each kill, what stands must be whole by its
 * own manifest, and be the output of an input that was there; after the last, an undisturbed run must converge: one
 * output, up to date, nothing beside it but the kept measurements. Exit code 1 when anything is otherwise.
 */
const { values } = parseArgs({ options: { kills: { type: 'string', default: '500' }, seed: { type: 'string', default: '1' } } })
const MAIN = fileURLToPath(new URL('../cli/main.js', import.meta.url))
const SAMPLE = fileURLToPath(new URL('../../inputs/third-cylinder-valve', import.meta.url))
const scratch = mkdtempSync(join(tmpdir(), 'burnline-kills-'))
const [job, out] = [join(scratch, 'job'), join(scratch, 'out')]
const sha256 = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex')

cpSync(SAMPLE, job, { recursive: true })
const random = makeRandom(Number(values.seed))
const kills = Number(values.kills)
const seen = { old: 0, fresh: 0, nothing: 0, ended: 0, movedAway: 0 }
const faults: string[] = []
const logs = new Set<string>([sha256(join(job, 'test-log.csv'))])

const undisturbedMs = (await report())!
let standing = whole()
for (let kill = 1; kill <= kills; kill++) {
  appendFileSync(join(job, 'test-log.csv'), `2026-03-05T10:00:00+00:00,note,,,,,,,,,,,,,run ${kill}\n`)
  logs.add(sha256(join(job, 'test-log.csv')))
  const ended = await report(random.uniform() * 1.1 * undisturbedMs)
  if (ended !== undefined) seen.ended++
  const now = whole()
  if (now === undefined && standing !== undefined) {
    seen.movedAway++ // between the two renames: the next run must put it back
  } else if (now === undefined) seen.nothing++
  else seen[now === standing ? 'old' : 'fresh']++
  standing = now ?? standing
}
await report()
if (whole() !== sha256(join(job, 'test-log.csv'))) faults.push('the last run did not converge')
const beside = readdirSync(out).filter((name) => name !== '.burnline-cache')
if (beside.length !== 1) faults.push(`left beside the output: ${beside.join(', ')}`)
process.stdout.write(`${kills} kills over ${Math.round(undisturbedMs)} ms: old stands ${seen.old}, new stands ${seen.fresh}, `
  + `ended before the kill ${seen.ended}, killed between the renames (put back by the next run) ${seen.movedAway}; faults ${faults.length}\n`)
for (const fault of faults) process.stdout.write(`  ${fault}\n`)
rmSync(scratch, { recursive: true, force: true })
process.exitCode = faults.length > 0 ? 1 : 0

/** Runs the command, killed after a while; how long it took where it ended by itself. */
async function report(killAfterMs?: number): Promise<number | undefined> {
  const startMs = performance.now()
  const child = spawn(process.execPath, [MAIN, 'report', job, '--out', out], { stdio: 'ignore' })
  const end = once(child, 'exit') as Promise<[number | null]>
  if (killAfterMs !== undefined) {
    await Promise.race([end, wait(killAfterMs)])
    child.kill('SIGKILL')
  }
  const [code] = await end
  if (killAfterMs === undefined && code !== 0) throw new Error(`the undisturbed run ended with ${code}`)
  return code === 0 ? performance.now() - startMs : undefined
}

/** Digest of the log that the standing output was made from, its files checked by its manifest; undefined where none stands. */
function whole(): string | undefined {
  const [name] = existsSync(out) ? readdirSync(out).filter((entry) => !entry.startsWith('.')) : []
  if (name === undefined) return undefined
  const folder = join(out, name)
  const { inputs, outputs } = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as Record<'inputs' | 'outputs', { file: string; sha256: string }[]>
  for (const { file, sha256: stated } of outputs) if (sha256(join(folder, file)) !== stated) faults.push(`${file} is not what its manifest says`)
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
  if (files.length !== outputs.length + 1) faults.push(`${files.length} files, ${outputs.length} in the manifest`)
  const log = inputs.find((input) => input.file === 'test-log.csv')!.sha256
  if (!logs.has(log)) faults.push('made from an input that never was')
  return log
}
