// The program on every Node it promises to run on: the same bytes from all demo jobs, nothing printed that is not ours;
// and a clear refusal on one that is too old. Takes the Nodes from npm into .cache/nodes/; one that is not to be had is
// named and left out. Runs what is built, as it is: a change of Node asks for nothing else.
//
//   node .ci/nodes.mjs
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const PROMISED = ['20.19.0', '22', '24']
const TOO_OLD = '18'
const root = fileURLToPath(new URL('..', import.meta.url))
const [main, bootstrap] = [join(root, 'dist', 'cli', 'main.js'), join(root, 'src', 'bootstrap.mjs')]
const jobs = readdirSync(join(root, 'inputs')).sort()
const scratch = mkdtempSync(join(tmpdir(), 'burnline-nodes-'))
const faults = []

/** Path of a Node of this version; undefined where npm cannot get it. */
function nodeOf(version) {
  const folder = join(root, '.cache', 'nodes', version)
  const path = join(folder, 'node_modules', 'node', 'bin', 'node')
  if (!existsSync(path)) {
    mkdirSync(folder, { recursive: true })
    writeFileSync(join(folder, 'package.json'), '{ "private": true }\n')
    const words = ['install', `node@${version}`, '--no-audit', '--no-fund', '--loglevel=error']
    spawnSync('npm', words, { cwd: folder, stdio: 'ignore', shell: process.platform === 'win32' })
  }
  return existsSync(path) ? path : undefined
}

/** Reports, checks and looks at the demo jobs: a digest of all that was written and said, and what was said beside it. */
function outcome(node) {
  const out = join(scratch, 'out') // one place for all: it is named in what is said
  rmSync(out, { recursive: true, force: true })
  const run = (...words) => spawnSync(node, [main, ...words], { cwd: root, encoding: 'utf8' })
  const folders = jobs.map((job) => join('inputs', job))
  const captures = readdirSync(join(root, folders[0], 'captures')).map((file) =>
    join(folders[0], 'captures', file),
  )
  const runs = [
    run('report', ...folders, '--out', out),
    run('report', folders[0], '--out', join(out, 'alone')),
    run('check', ...folders),
    run('peek', captures[0]),
    run('verify', ...readdirSync(out).flatMap((entry) => (/^[.a]/.test(entry) ? [] : [join(out, entry)]))),
  ]
  const hash = createHash('sha256')
  for (const { status, stdout } of runs) hash.update(`${status} ${stdout}`)
  const files = readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.parentPath.includes('.burnline-cache'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
  for (const file of files) hash.update(file.slice(out.length)).update(readFileSync(file))
  return {
    digest: hash.digest('hex'),
    said: runs.map(({ stderr }) => stderr).join(''),
    files: files.length,
    failed: runs.some(({ status }) => status !== 0),
  }
}

try {
  const here = outcome(process.execPath)
  console.log(`node ${process.version}: ${here.files} files`)
  if (here.failed || here.said !== '') faults.push(`${process.version}: fails, or says "${here.said}"`)
  for (const version of PROMISED) {
    const node = nodeOf(version)
    if (!node) {
      console.log(`node ${version}: not to be had from npm, left out`)
      continue
    }
    // One run of ten on Node 24 once lost a capture's sync pulses, not found since: a difference is told each time it
    // is seen, and fails when it comes twice running.
    const runs = [outcome(node)]
    const same = ({ digest, said }) => digest === here.digest && said === ''
    if (!same(runs[0])) {
      console.log(`node ${version}: DIFFERS once, says "${runs[0].said}"`)
      runs.push(outcome(node))
    }
    const there = runs.at(-1)
    console.log(`node ${version}: ${same(there) ? 'the same bytes, nothing else said' : 'DIFFERS'}`)
    if (!same(there)) faults.push(`${version}: other bytes, or says "${there.said}"`)
  }
  const old = nodeOf(TOO_OLD)
  if (!old) console.log(`node ${TOO_OLD}: not to be had from npm, left out`)
  else
    for (const words of [
      [main, 'check', join('inputs', jobs[0])],
      [bootstrap, 'build'],
    ]) {
      const { status, stderr } = spawnSync(old, words, { cwd: root, encoding: 'utf8' })
      const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
      const oldest = /\d+\.\d+/.exec(engines.node)[0]
      const clear =
        status === 69 && stderr.startsWith(`burnline: needs Node ${oldest} or later; this is v${TOO_OLD}.`)
      console.log(`node ${TOO_OLD}: ${clear ? 'refused' : `NOT refused: ${status} ${stderr}`}`)
      if (!clear) faults.push(`${TOO_OLD}: not clearly refused`)
    }
} finally {
  rmSync(scratch, { recursive: true, force: true })
}
for (const fault of faults) console.error(fault)
process.exitCode = faults.length > 0 ? 1 : 0
