/**
 * Joins the compiled program and its packages into a few files in dist/app/, and parses the templates that every job
 * reads. Plain JavaScript: part of the build. Where the bundler cannot be loaded nothing is lost but some speed.
 *
 *   node src/bundle.mjs
 */
import { createHash } from 'node:crypto'
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const dist = join(dirname(fileURLToPath(import.meta.url)), '..', 'dist')
const app = join(dist, 'app')
/** The job reported for the code to keep: captures before and after, charts, a log with traces. */
const DEMO = join(dist, '..', 'inputs', 'wasted-spark-runner-two')
/** Folder of the file that stands for a package. */
const folderOf = (name) => dirname(fileURLToPath(import.meta.resolve(name)))
/** The colour profile of every report. */
const PROFILE = 'sRGB_IEC61966_2_1.icc'

/** Loaded together, so kept together; what else is loaded late gets files of its own. */
const GROUPS = [
  { name: 'pdf', test: /node_modules[\\/](pdfkit|fontkit|restructure|brotli|unicode-|dfa|tiny-inflate|clone|fast-deep-equal|@swc|js-md5|@noble|linebreak|png-js)/ },
  { name: 'charts', test: /node_modules[\\/](vega|d3-|topojson)/ },
]

/** No report is encrypted, and the tables of a cipher take longer to make than a page to draw. */
const noEncryption = {
  name: 'no-encryption',
  resolveId: (id) => (id.startsWith('@noble/ciphers') ? `\0${id}` : null),
  load: (id) => (id.startsWith('\0@noble/ciphers') ? 'const none = () => { throw new Error("no encryption in reports") }\nexport const cbc = none, ecb = none' : null),
}

rmSync(app, { recursive: true, force: true })
try {
  const { rolldown } = await import('rolldown')
  const bundle = await rolldown({
    input: { run: join(dist, 'cli', 'run.js'), 'job-worker': join(dist, 'batch', 'job-worker.js') },
    platform: 'node',
    // Nothing is drawn on a screen here: without this each start would look for a canvas package that is not there.
    resolve: { alias: { 'vega-canvas': join(folderOf('vega-canvas'), 'vega-canvas.browser.js') } },
    plugins: [noEncryption],
    // Only of what yargs would do with settings that lie in files, which no command here reads.
    checks: { emptyImportMeta: false, ineffectiveDynamicImport: false },
    logLevel: 'warn',
  })
  await bundle.write({ dir: app, format: 'cjs', entryFileNames: '[name].cjs', chunkFileNames: '[name].cjs', codeSplitting: { groups: GROUPS } })
  await bundle.close()
  // A thread is opened by a file of its own, which loads the program as the main thread does.
  writeFileSync(join(app, 'job-worker.js'), "import { program } from '../cli/load-joined.js'\nprogram.load('job-worker.cjs')\n")
} catch (cause) {
  rmSync(app, { recursive: true, force: true })
  console.error(`burnline: not joined into few files (${cause.message.split('\n')[0]}); it runs as it is`)
}

mkdirSync(join(app, 'data'), { recursive: true })
// pdfkit reads its colour profile from beside itself.
copyFileSync(join(folderOf('pdfkit'), 'data', PROFILE), join(app, 'data', PROFILE))
const { makeReady } = await import('../dist/limits/read-template.js')
writeFileSync(join(app, 'templates.json'), JSON.stringify(makeReady()))
writeFileSync(join(app, 'made-from'), createHash('sha256').update(readFileSync(join(dist, '.tsbuildinfo'))).digest('hex'))
keepCode()

/**
 * Reports a demo job and keeps the code compiled on the way. In a process of its own: what it compiles must be what a
 * report does, and only that. Where it fails the program compiles its files each time.
 */
function keepCode() {
  if (!existsSync(join(app, 'run.cjs')) || !existsSync(DEMO)) return
  const out = mkdtempSync(join(tmpdir(), 'burnline-code-'))
  const done = spawnSync(process.execPath, [join(dirname(fileURLToPath(import.meta.url)), 'keep-code.mjs'), 'report', DEMO, '--out', out, '--jobs', '1'], { stdio: ['ignore', 'ignore', 'inherit'] })
  rmSync(out, { recursive: true, force: true })
  if (done.status !== 0) console.error('burnline: no compiled code kept; each start compiles')
}
