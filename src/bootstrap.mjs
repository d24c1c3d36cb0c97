/**
 * Makes a fresh checkout run with nothing but Node and npm: installs what the lock file names, builds, then goes on.
 *
 *   node src/bootstrap.mjs build                install and build where needed
 *   node src/bootstrap.mjs start [folder...]    ... then report the folders, or every demo job in inputs/
 *   node src/bootstrap.mjs run <script> [...]   ... then run a built script, such as demo/make-demo.js
 *   node src/bootstrap.mjs test [...]           ... then run every test
 *   node src/bootstrap.mjs prepare | prepack    what npm calls when it installs from this folder, and when it packs it
 *
 * Installation and build are paid once: each leaves the digest of what it was made from, and is skipped while that holds.
 * Plain JavaScript without packages, because it runs before there are any.
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const callerFolder = process.cwd()
const at = (...parts) => join(root, ...parts)

/** Says what is missing on a Node that is too old, before it fails at something it does not know. */
function checkNode() {
  const [, ...oldest] = /(\d+)\.(\d+)/.exec(JSON.parse(readFileSync(at('package.json'), 'utf8')).engines.node)
  const [major, minor] = process.versions.node.split('.').map(Number)
  if (major > oldest[0] || (major === Number(oldest[0]) && minor >= oldest[1])) return
  console.error(
    `burnline: needs Node ${oldest.join('.')} or later; this is ${process.version} (${process.execPath})`,
  )
  process.exit(69)
}

/** Runs a command of ours and leaves with its exit code when it fails. */
function run(command, args, { cwd = root, env = process.env } = {}) {
  const done = spawnSync(command, args, { cwd, env, stdio: 'inherit', shell: false })
  if (done.error) {
    console.error(`burnline: cannot run ${command}: ${done.error.message}`)
    process.exit(70)
  }
  if (done.status !== 0) process.exit(done.status ?? 70)
}

/** npm without relying on a shell: the npm that started us, or the one on the path. */
function npm(args) {
  const self = process.env.npm_execpath
  const env = { ...process.env }
  // What was said to the npm that called us (`npm install -g .`) is not for this one.
  for (const name of Object.keys(env))
    if (/^npm_config_(global|location|prefix|local_prefix)$/i.test(name)) delete env[name]
  if (self && /\.[cm]?js$/.test(self)) return run(process.execPath, [self, ...args], { env })
  return run(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, { env })
}

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) =>
      entry.isDirectory() ? filesBelow(join(folder, entry.name)) : [join(folder, entry.name)],
    )
}

function digestOf(files) {
  const hash = createHash('sha256')
  for (const file of files)
    hash.update(file.slice(root.length)).update('\0').update(readFileSync(file)).update('\0')
  return hash.digest('hex')
}

/** Does `work` unless the stamp file already holds this digest. */
function once(stamp, digest, work) {
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === digest) return
  work()
  mkdirSync(dirname(stamp), { recursive: true })
  writeFileSync(stamp, digest)
}

/** npm installs the packages of a folder and then asks it to prepare itself: then they are there already. */
const isInstalledByNpm = () =>
  ['ci', 'install'].includes(process.env.npm_command) &&
  process.env.npm_config_global !== 'true' &&
  existsSync(at('node_modules', 'typescript'))

function install() {
  const digest = `${digestOf([at('package-lock.json')])} ${process.platform}-${process.arch}`
  once(at('node_modules', '.burnline-installed'), digest, () => {
    if (what === 'prepare' && isInstalledByNpm()) return
    console.error('burnline: installing packages (once) ...')
    // Without scripts: ours would call this again without end, and no package needs its own.
    npm(['ci', '--ignore-scripts', '--no-fund', '--no-audit', '--loglevel=error'])
  })
}

/** Removes what was compiled of sources that are no longer there. */
function sweep() {
  if (!existsSync(at('dist'))) return
  rmSync(at('dist', 'app'), { recursive: true, force: true })
  for (const file of filesBelow(at('dist')))
    if (file.endsWith('.js') && !existsSync(at('src', file.slice(at('dist').length).replace(/\.js$/, '.ts'))))
      rmSync(file)
}

function build() {
  install()
  const digest = digestOf([at('tsconfig.json'), at('package-lock.json'), ...filesBelow(at('src'))])
  once(at('dist', '.built-from'), digest, () => {
    console.error('burnline: building (once) ...')
    sweep()
    run(process.execPath, [at('node_modules', 'typescript', 'bin', 'tsc'), '-p', at('tsconfig.json')])
    run(process.execPath, [at('src', 'bundle.mjs')])
  })
}

/** Every folder of inputs/ that holds a job.yaml. */
function demoJobs() {
  return readdirSync(at('inputs'))
    .sort()
    .map((name) => at('inputs', name))
    .filter((folder) => statSync(folder).isDirectory() && existsSync(join(folder, 'job.yaml')))
}

const [what = 'build', ...rest] = process.argv.slice(2)
const folderWhereAsked = process.env.INIT_CWD ?? callerFolder

checkNode()
switch (what) {
  case 'build':
  case 'prepare':
    build()
    break
  case 'prepack':
    build()
    if (!existsSync(at('dist', 'app', 'run.js'))) {
      console.error('burnline: not joined into few files, and only these are packed')
      process.exit(70)
    }
    break
  case 'start':
    build()
    run(
      process.execPath,
      [
        at('dist', 'cli', 'main.js'),
        'report',
        '--out',
        process.env.BURNLINE_OUTPUTS ?? at('outputs'),
        ...(rest.length ? rest : demoJobs()),
      ],
      { cwd: folderWhereAsked },
    )
    break
  case 'run':
    build()
    run(process.execPath, [at('dist', rest[0]), ...rest.slice(1)], { cwd: folderWhereAsked })
    break
  case 'test':
  case 'test-long':
    build()
    run(
      process.execPath,
      [at('node_modules', 'vitest', 'vitest.mjs'), 'run', '-c', at('tests', 'vitest.config.ts'), ...rest],
      what === 'test' ? {} : { env: { ...process.env, BURNLINE_LONG_RUN: 'yes' } },
    )
    break
  default:
    console.error(`burnline: '${what}' is none of build, start, run, test, test-long, prepare, prepack`)
    process.exit(64)
}
