import { spawnSync } from 'node:child_process'
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/**
 * Speed and memory of decoding one large capture, built code in a process of its own:
 * `npm run bench:decode`. Rows may be given as a word (`-- 1000000`; default 5 000 000).
 * Prints, for each way a file is written: MB/s of the whole reading (bytes read, hashed, decoded, clock and clipping
 * checked), processor time, the ratio to reading the bytes alone, and the peak of the process's memory.
 * The least of the rounds is what the work costs; the machine may have been doing other things in the others.
 */
const ROWS = Number(process.argv[2] ?? 5_000_000)
const ROUNDS = 5
const built = fileURLToPath(new URL('../../dist/capture/read-capture.js', import.meta.url))
if (!existsSync(built)) throw new Error('not built: npm run build')

const WAYS: Readonly<
  Record<string, { header: string; row: (i: number, kv: number, sync: number) => string }>
> = {
  'time and two channels, commas': {
    header: 'time,kv,sync\n',
    row: (i, kv, sync) => `${(i * 2e-6).toFixed(6)},${kv.toFixed(3)},${sync.toFixed(2)}\n`,
  },
  'two channels, tabs': {
    header: 'kv\tsync\n',
    row: (_, kv, sync) => `${kv.toFixed(4)}\t${sync.toFixed(4)}\n`,
  },
  'decimal commas, CR LF': {
    header: 'time;kv;sync\r\n',
    row: (i, kv, sync) =>
      `${(i * 2e-6).toFixed(6)};${kv.toFixed(3)};${sync.toFixed(2)}\r\n`.replaceAll('.', ','),
  },
  exponents: {
    header: 'time,kv,sync\n',
    row: (i, kv, sync) => `${(i * 2e-6).toExponential(8)},${kv.toExponential(4)},${sync.toExponential(2)}\n`,
  },
}

/** An invented pattern of 5000 samples: rest, a firing line, a falling spark line; noise by a congruence. */
function write(path: string, way: (typeof WAYS)[string]): void {
  const fd = openSync(path, 'w')
  let text = way.header
  let noise = 12345
  for (let i = 0; i < ROWS; i++) {
    noise = (Math.imul(noise, 1103515245) + 12345) & 0x7fffffff
    const at = i % 5000
    const level = at < 4000 ? 0 : at < 4004 ? 2.5 * (at - 3999) : at < 4700 ? 1.6 + 0.0001 * (at - 4004) : 0
    text += way.row(i, Math.round((level + (noise % 64) / 1600) / 0.00977) * 0.00977, at < 50 ? 5 : 0)
    if (text.length > 2 ** 20) {
      writeSync(fd, text)
      text = ''
    }
  }
  writeSync(fd, text)
  closeSync(fd)
}

const CHILD = `
import { openSync, readSync } from 'node:fs'
const [path, built, timed] = process.argv.slice(1)
const { readCapture } = await import(built)
const entry = { file: path, stage: 'before', condition: 'idle', engine: 'warm', taken: '',
  time: timed === 'yes' ? { column: 'time', unit: 's' } : { sample_rate_hz: 500000 },
  channels: [{ column: 'kv', carries: 'secondary', cylinders: 'all', unit: 'kV', scale: 1, polarity: 'auto' },
    { column: 'sync', carries: 'sync', cylinder: 1, unit: 'V', scale: 1, polarity: 'auto' }] }
const least = { read: Infinity, ms: Infinity, cpu: Infinity, first: 0 }
const buffer = Buffer.alloc(512 * 1024)
let rows = 0
let peak = 0
for (let round = 0; round < ${ROUNDS}; round++) {
  let start = performance.now()
  const fd = openSync(path)
  while (readSync(fd, buffer) > 0);
  least.read = Math.min(least.read, performance.now() - start)
  start = performance.now()
  const cpu = process.cpuUsage()
  rows = (await readCapture(path, entry)).rows
  const ms = performance.now() - start
  const { user, system } = process.cpuUsage(cpu)
  if (round === 0) { least.first = ms; peak = process.resourceUsage().maxRSS / 1024 }
  least.ms = Math.min(least.ms, ms)
  least.cpu = Math.min(least.cpu, (user + system) / 1000)
}
console.log(JSON.stringify({ ...least, rows, peak }))
`

const folder = mkdtempSync(join(tmpdir(), 'burnline-bench-'))
try {
  for (const [name, way] of Object.entries(WAYS)) {
    const path = join(folder, 'big.csv')
    write(path, way)
    const megabytes = statSync(path).size / 1e6
    const child = spawnSync(
      process.execPath,
      ['--input-type=module', '-e', CHILD, path, built, way.header.startsWith('time') ? 'yes' : 'no'],
      { encoding: 'utf8' },
    )
    if (child.status !== 0) throw new Error(child.stderr)
    const { read, ms, cpu, first, rows, peak } = JSON.parse(child.stdout) as Record<
      'read' | 'ms' | 'cpu' | 'first' | 'rows' | 'peak',
      number
    >
    console.log(`${name}: ${rows} rows, ${megabytes.toFixed(0)} MB`)
    console.log(
      `  whole reading ${((megabytes / ms) * 1e3).toFixed(0)} MB/s (${ms.toFixed(0)} ms; first ${first.toFixed(0)} ms; ` +
        `processor ${cpu.toFixed(0)} ms); bytes alone ${((megabytes / read) * 1e3).toFixed(0)} MB/s; ratio ${(ms / read).toFixed(1)}; ` +
        `peak memory after the first ${peak.toFixed(0)} MiB`,
    )
  }
} finally {
  rmSync(folder, { recursive: true, force: true })
}
