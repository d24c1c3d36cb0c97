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
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { proofSchema } from '../../src/records/proof.ts'

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

describe('the package of a fresh clone', () => {
  let program: string
  beforeAll(() => {
    const done = spawnSync('tar', ['-xzf', join(work, packed.filename), '-C', work])
    expect(done.status).toBe(0)
    symlinkSync(join(root, 'node_modules'), join(work, 'package', 'node_modules'))
    program = join(work, 'package', 'dist', 'cli', 'main.js')
  })

  test('holds the program, its templates and the captures of its proof, and nothing that only builds or tests', () => {
    const names = packed.files.map(({ path }) => path)
    expect(names.filter((name) => !SHIPPED.test(name))).toEqual([])
    for (const name of ['dist/app/run.js', 'dist/app/job-worker.js', 'dist/app/templates.json'])
      expect(names).toContain(name)
  })

  test('reports a job with the same bytes as the checkout', () => {
    const reported = (main: string, out: string) => {
      const { status, stderr } = burnline(main, ['report', DEMO, '--out', join(work, out)])
      expect(`${status} ${stderr}`).toBe('0 ')
      const [name] = readdirSync(join(work, out)).filter((entry) => !entry.startsWith('.'))
      return readFileSync(join(work, out, name!, 'manifest.json'), 'utf8')
    }
    expect(reported(program, 'packed')).toBe(reported(join(root, 'dist', 'cli', 'main.js'), 'checked-out'))
  })

  test('proves itself on captures with known truth and writes a proof file', () => {
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
