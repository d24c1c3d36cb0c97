import { spawnSync } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { proofSchema } from '../../src/records/proof.ts'
import { EXPORTS } from '../onboard/raw-exports.ts'

/** What a user gets: the package that npm packs in a clone that was never built, and the command it installs from one. */

const root = fileURLToPath(new URL('../..', import.meta.url))
const DEMO = join(root, 'inputs', 'plug-top-resistance')
/** Of the checkout, what a fresh clone does not have. */
const NOT_CLONED = ['node_modules', 'dist', '.git', '.cache']
/** What a package may hold: nothing that only builds or tests. */
const SHIPPED =
  /^(package\.json|README\.md|DEVELOPERS\.md|dist\/app\/.+|dist\/cli\/(main|exit-codes)\.js|templates\/.+|tests\/fixtures\/captures\/.+)$/

let work: string
let clone: string
let packed: { filename: string; files: { path: string }[] }

/** npm as it runs this, or the one on the path; told of no other call's settings. */
function npm(args: string[], cwd: string) {
  const self = process.env['npm_execpath']
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name)))
  const done = self
    ? spawnSync(process.execPath, [self, ...args], { cwd, env, encoding: 'utf8' })
    : spawnSync('npm', args, { cwd, env, encoding: 'utf8' })
  if (done.status !== 0) throw new Error(`npm ${args.join(' ')}: ${done.stderr}`)
  return done
}

const burnline = (main: string, args: string[]) =>
  spawnSync(process.execPath, [main, ...args], { cwd: work, encoding: 'utf8' })

beforeAll(() => {
  work = realpathSync(mkdtempSync(join(tmpdir(), 'burnline-package-')))
  clone = join(work, 'clone')
  const isCloned = (path: string) => {
    const [top, ...below] = relative(root, path).split(sep)
    return !NOT_CLONED.includes(top!) && !(top === 'outputs' && below.length > 0)
  }
  cpSync(root, clone, { recursive: true, filter: isCloned })
  // The packages as the lock file names them, so that nothing has to be fetched.
  symlinkSync(join(root, 'node_modules'), join(clone, 'node_modules'))
  const { stdout } = npm(['pack', '--json', '--pack-destination', work], clone)
  packed = (JSON.parse(stdout.slice(stdout.indexOf('['))) as [typeof packed])[0]
}, 300_000)
afterAll(() => rmSync(work, { recursive: true, force: true }))

describe('a stranger with the packed file and an empty folder', () => {
  /** What the install put there: the command, and nothing else. */
  let program: string
  beforeAll(() => {
    const stranger = join(work, 'stranger')
    mkdirSync(stranger)
    npm(
      ['install', join(work, packed.filename), '--offline', '--no-audit', '--no-fund', '--prefix', stranger],
      stranger,
    )
    program = realpathSync(join(stranger, 'node_modules', '.bin', 'burnline'))
  }, 60_000)

  test('gets the program, its templates and the captures of its proof, and nothing that only builds or tests', () => {
    const names = packed.files.map(({ path }) => path)
    expect(names.filter((name) => !SHIPPED.test(name))).toEqual([])
    for (const name of ['dist/app/run.js', 'dist/app/job-worker.js', 'dist/app/templates.json'])
      expect(names).toContain(name)
    const installed = readdirSync(join(work, 'stranger', 'node_modules')).filter((name) => name[0] !== '.')
    expect(installed).toEqual(['burnline'])
    // What is joined into the program travels with its terms.
    const notices = readFileSync(
      join(work, 'stranger', 'node_modules', 'burnline', 'dist', 'app', 'NOTICES.txt'),
      'utf8',
    )
    for (const name of ['papaparse', 'pdfkit', 'vega', 'vega-lite', 'yargs', 'yaml', 'zod'])
      expect(notices).toMatch(new RegExp(`^${name} [0-9.]+, \\S+\\n\\n(.+\\n)+`, 'm'))
  })

  test('comes from a raw export to a report that verifies, with the same bytes as the checkout makes', () => {
    writeFileSync(join(work, 'before.csv'), EXPORTS.plain()[0]!.bytes)
    const lines = [
      ['peek', 'before.csv'],
      ['new', 'KB-26-0417', 'before.csv'],
      ['log', 'KB-26-0417', 'spray', 'runner 2 joint', 'response'],
      ['report', 'KB-26-0417'],
      ['verify', 'outputs'],
    ]
    const said = lines.map((words) => {
      const { status, stdout, stderr } = burnline(program, words)
      expect(status, `${words.join(' ')}: ${stderr}`).toBe(0)
      return stdout
    })
    expect(said[0]).toContain('burnline new makes a capture of it:')
    expect(said[3]).toContain('lean on cylinder 2')
    const checkout = join(root, 'dist', 'cli', 'main.js')
    expect(burnline(checkout, ['report', 'KB-26-0417', '--out', 'checked-out']).status).toBe(0)
    const manifest = (out: string) => readFileSync(join(work, out, 'KB-26-0417', 'manifest.json'), 'utf8')
    expect(manifest('outputs')).toBe(manifest('checked-out'))
  })

  test('proves it on captures with known truth and writes a proof file', () => {
    const run = burnline(program, ['prove', '--out', 'proof.json'])
    expect(`${run.status} ${run.stderr}`).toBe('0 ')
    const proof = proofSchema.parse(JSON.parse(readFileSync(join(work, 'proof.json'), 'utf8')))
    expect(proof.holds).toBe(true)
    expect(proof.captures.map((c) => c.origin)).toContain('circuit simulation')
  })
})

test('npm install -g from the clone gives the command', () => {
  const prefix = join(work, 'prefix')
  mkdirSync(join(prefix, 'lib'), { recursive: true })
  npm(['install', '-g', '.', '--prefix', prefix, '--offline', '--no-audit', '--no-fund'], clone)
  const command = [join(prefix, 'bin', 'burnline'), join(prefix, 'burnline')].find(existsSync)!
  const run = burnline(realpathSync(command), ['check', DEMO])
  expect(run.status).toBe(0)
})
