// Which wrong programs the tests notice: npm run mutants -- --count 40 --seed 1 [--room metrics] [--nice 10]
//
// Draws small changes of the judging code by a seed (a comparison turned, a constant moved, a term dropped, the larger
// for the smaller), makes one at a time in a copy of the project, and runs tests until one fails: first those that name
// the file, then those of its room, then those of whole jobs. Prints every survivor with file and line, and the share
// killed with its exact interval. A change that makes no difference by its nature (an equivalent) survives too; those
// known are listed in EQUIVALENT with the reason, and drawn no more.
import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import ts from 'typescript'
import { binomialInterval } from '../../src/maths/binomial-interval.ts'
import { makeRandom } from '../../src/maths/random.ts'

const ROOMS = ['ignition', 'metrics', 'test-log', 'verdicts', 'maths', 'capture']
/** Tests of whole jobs, run for what the room's own tests let through. */
const WHOLE = ['tests/chain/known-captures.test.ts', 'tests/chain/two-faults.test.ts', 'tests/conclusion']
const MOST_MINUTES = 6

/** Changes that make no difference: `file:text -> text`, with the reason. */
const EQUIVALENT: Readonly<Record<string, string>> = {}

interface Mutant {
  file: string
  line: number
  from: number
  to: number
  was: string
  is: string
}

const { values: asked } = parseArgs({
  options: {
    count: { type: 'string', default: '40' },
    seed: { type: 'string', default: '1' },
    room: { type: 'string' },
    nice: { type: 'string', default: '0' },
  },
})
const root = fileURLToPath(new URL('../..', import.meta.url))
const copy = mkdtempSync(join(tmpdir(), 'mutants-'))

const TURNED: Readonly<Record<string, string>> = {
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '===': '!==',
  '!==': '===',
  '&&': '||',
  '||': '&&',
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
}
const CALLS: Readonly<Record<string, string>> = {
  'Math.max': 'Math.min',
  'Math.min': 'Math.max',
  'Math.hypot': 'Math.max',
  'Math.abs': '',
}

/** Every change of a file that the seed may draw. */
function mutantsOf(file: string): Mutant[] {
  const text = readFileSync(join(root, 'src', file), 'utf8')
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true)
  const found: Mutant[] = []
  const add = (from: number, to: number, is: string): void => {
    const was = text.slice(from, to)
    const line = source.getLineAndCharacterOfPosition(from).line + 1
    if (`${file}:${was} -> ${is}` in EQUIVALENT) return
    found.push({ file, line, from, to, was, is })
  }
  const isText = (node: ts.Expression): boolean =>
    ts.isStringLiteralLike(node) || ts.isTemplateExpression(node)
  const walk = (node: ts.Node): void => {
    // Types make no program, and a message's wording is no judgement.
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node)) return
    if (ts.isThrowStatement(node)) return
    if (ts.isBinaryExpression(node) && !isText(node.left) && !isText(node.right)) {
      const is = TURNED[node.operatorToken.getText(source)]
      if (is !== undefined) add(node.operatorToken.getStart(source), node.operatorToken.getEnd(), is)
    }
    if (ts.isNumericLiteral(node)) {
      const value = Number(node.text.replaceAll('_', ''))
      add(node.getStart(source), node.getEnd(), String(value === 0 ? 1 : value === 1 ? 2 : value * 1.25))
    }
    if (ts.isCallExpression(node)) {
      const is = CALLS[node.expression.getText(source)]
      if (is !== undefined) add(node.expression.getStart(source), node.expression.getEnd(), is)
    }
    ts.forEachChild(node, walk)
  }
  walk(source)
  return found
}

const filesOf = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'))

/** Paths of tests, nearest first: those that name the file, those of the room, those of whole jobs. */
function testsFor(file: string): string[][] {
  const room = file.split('/')[0]!
  const named = filesOf('tests')
    .filter((f) => f.endsWith('.test.ts'))
    .filter((f) => readFileSync(join(root, 'tests', f), 'utf8').includes(`/src/${file}'`))
    .map((f) => `tests/${f}`)
  const near = filesOf('tests')
    .filter((f) => f.endsWith('.test.ts') && basename(f, '.test.ts') === basename(file, '.ts'))
    .map((f) => `tests/${f}`)
  const first = [...new Set([...named, ...near])]
  return [...(first.length > 0 ? [first] : []), [`tests/${room}`], WHOLE]
}

const sound = new Map<string, boolean>()
/** Whether the tests notice the change; they must pass without it, or they say nothing. */
function notice(tests: readonly string[], without: () => boolean): boolean {
  if (!fails(tests)) return false
  const key = tests.join(' ')
  const passed = sound.get(key) ?? without()
  sound.set(key, passed)
  if (!passed) throw new Error(`these fail without any change: ${key}`)
  return true
}

/** What the tests say of the copy as it is: whether one failed. */
function fails(tests: readonly string[]): boolean {
  const ran = spawnSync(
    'nice',
    [
      ...['-n', asked.nice, process.execPath, 'node_modules/vitest/vitest.mjs', 'run', '--bail', '1'],
      ...['-c', 'tests/vitest.config.ts', '--maxWorkers=1', '--reporter=dot', '--silent=true', ...tests],
    ],
    {
      cwd: copy,
      stdio: process.env['MUTANTS_SHOW'] ? 'inherit' : 'ignore',
      timeout: MOST_MINUTES * 60_000,
      killSignal: 'SIGKILL',
    },
  )
  return ran.status !== 0
}

for (const part of [
  'src',
  'tests',
  'templates',
  'inputs',
  'package.json',
  'tsconfig.json',
  'README.md',
  'DEVELOPERS.md',
])
  cpSync(join(root, part), join(copy, part), { recursive: true })
symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'))
const rooms = asked.room === undefined ? ROOMS : [asked.room]
const files = rooms.flatMap((room) => filesOf(`src/${room}`).map((f) => join(room, f)))
const all = files.flatMap(mutantsOf)
const random = makeRandom(Number(asked.seed))
const drawn = Array.from(
  { length: Number(asked.count) },
  () => all[Math.floor(random.uniform() * all.length)]!,
)
console.log(
  `${all.length} changes of ${files.length} files in ${rooms.join(', ')}; ${drawn.length} drawn by seed ${asked.seed}`,
)
let killed = 0
const lived: Mutant[] = []
for (const [i, mutant] of drawn.entries()) {
  const path = join(copy, 'src', mutant.file)
  const whole = readFileSync(path, 'utf8')
  const changed = whole.slice(0, mutant.from) + mutant.is + whole.slice(mutant.to)
  writeFileSync(path, changed)
  const dead = testsFor(mutant.file).some((tests) =>
    notice(tests, () => {
      writeFileSync(path, whole)
      const failed = fails(tests)
      writeFileSync(path, changed)
      return !failed
    }),
  )
  writeFileSync(path, whole)
  if (dead) killed++
  else lived.push(mutant)
  const word = dead ? 'killed  ' : 'SURVIVED'
  console.log(`${i + 1} ${word} src/${mutant.file}:${mutant.line}  ${mutant.was} -> ${mutant.is}`)
}
const { low, high } = binomialInterval({ hits: killed, total: drawn.length })
const pct = (share: number): string => `${(100 * share).toFixed(0)} %`
console.log(
  `${killed} of ${drawn.length} killed, ${pct(killed / drawn.length)} (${pct(low)} to ${pct(high)}, 95 %)`,
)
for (const { file, line, was, is } of lived) console.log(`survivor src/${file}:${line}  ${was} -> ${is}`)
rmSync(copy, { recursive: true, force: true })
