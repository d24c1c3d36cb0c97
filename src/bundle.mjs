/**
 * Joins the compiled program and its packages into a few files in dist/app/, parses the templates that every job reads,
 * and keeps the code V8 compiles of the files when they run. Plain JavaScript: part of the build. Where the bundler
 * cannot be loaded nothing is lost but some speed.
 *
 *   node src/bundle.mjs
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const dist = join(dirname(fileURLToPath(import.meta.url)), '..', 'dist')
const app = join(dist, 'app')
const root = join(dist, '..')
/** Scripts that a thread or a process begins with. */
const ENTRIES = {
  run: 'cli/run.js',
  'report-worker': 'batch/job-worker.js',
  'capture-worker': 'batch/measure-worker.js',
}
/** What a thread is begun with by the program, and the entry it stands for. */
const THREADS = { 'job-worker': 'report-worker', 'measure-worker': 'capture-worker' }
/** Folder of the file that stands for a package. */
const folderOf = (name) => dirname(fileURLToPath(import.meta.resolve(name)))
/** The colour profile of every report. */
const PROFILE = 'sRGB_IEC61966_2_1.icc'

/** Loaded together, so kept together; what else is loaded late gets files of its own. */
const GROUPS = [
  {
    name: 'pdf',
    test: /node_modules[\\/](pdfkit|fontkit|restructure|brotli|unicode-|dfa|tiny-inflate|clone|fast-deep-equal|@swc|js-md5|@noble|linebreak|png-js)/,
  },
  { name: 'charts', test: /node_modules[\\/](vega|d3-|topojson)/ },
]

/** No report is encrypted, and the tables of a cipher take longer to make than a page to draw. */
const noEncryption = {
  name: 'no-encryption',
  resolveId: (id) => (id.startsWith('@noble/ciphers') ? `\0${id}` : null),
  load: (id) =>
    id.startsWith('\0@noble/ciphers')
      ? 'const none = () => { throw new Error("no encryption in reports") }\nexport const cbc = none, ecb = none'
      : null,
}

/** Our fonts are TrueType: the dictionary of packed web fonts would only be read at every start. */
const noWebFonts = {
  name: 'no-web-fonts',
  load: (id) =>
    /[\\/]brotli[\\/]decompress\.js$/.test(id)
      ? 'module.exports = () => { throw new Error("no packed web fonts in reports") }'
      : null,
}

/** Tables of scripts that few reports print: unpacked when one is asked of, not whenever a report is made. */
const lateTables = {
  name: 'late-tables',
  transform: (code, id) =>
    /[\\/]unicode-trie[\\/]index\.js$/.test(id)
      ? code.replace(
          /module\.exports = UnicodeTrie;?\s*$/,
          `
class LateTrie {
  constructor(data) { this.data = data }
  get(codePoint) { return (this.trie ??= new UnicodeTrie(this.data)).get(codePoint) }
}
module.exports = LateTrie
`,
        )
      : null,
}

/** A part of yargs that is not used asks the module for its place; some modules are loaded late by one and early by another. */
const KNOWN_REMARKS = ['EMPTY_IMPORT_META', 'INEFFECTIVE_DYNAMIC_IMPORT']

/** What is run once so that its code is kept. What it does not load is compiled whenever it is used. */
const REHEARSALS = [
  (demo, aside) => ['report', demo, '--jobs', '1', '--out', aside],
  (demo) => ['check', demo],
  (demo) => ['peek', join(demo, 'captures', readdirSync(join(demo, 'captures'))[0])],
]
/** The longest of the demo jobs. */
const DEMO = join(root, 'inputs', 'brake-hose-leak-v8')

function keepCode() {
  if (!existsSync(join(app, 'load.js')) || !existsSync(DEMO)) return
  const aside = mkdtempSync(join(tmpdir(), 'burnline-build-'))
  for (const args of REHEARSALS) {
    spawnSync(process.execPath, [join(dist, 'cli', 'main.js'), ...args(DEMO, aside)], {
      env: { ...process.env, BURNLINE_KEEP_CODE: '1' },
      stdio: 'ignore',
    })
  }
  rmSync(aside, { recursive: true, force: true })
}

/** Files of packages alone are written shorter inside as well. Those of our own are not, for traces of faults that can be read. */
const OF_PACKAGES = GROUPS.map(({ name }) => `${name}.js`)

/**
 * Makes a file ready to be loaded (load-joined.cjs): the function around it stands in the file, and signs beyond ASCII
 * are escapes, since text of single bytes is read and kept in half the time and room. Such a file can load the others
 * late, and what comes with Node at its beginning.
 */
function makeLoadable(name, minify) {
  const text = readFileSync(join(app, name), 'utf8')
  const shorter = OF_PACKAGES.includes(name)
    ? minify(name, text, { compress: true, mangle: { keepNames: true } }).code
    : text
  const plain = shorter.replace(
    /[^\0-\x7f]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
  if (/(?<![\w$.])import\(/.test(plain))
    throw new Error(`${name} loads a module late that is not among the joined files`)
  writeFileSync(join(app, name), `(function (exports, require, module, __filename, __dirname) {${plain}\n})`)
}

rmSync(app, { recursive: true, force: true })
try {
  const { rolldown } = await import('rolldown')
  const bundle = await rolldown({
    input: Object.fromEntries(Object.entries(ENTRIES).map(([name, file]) => [name, join(dist, file)])),
    platform: 'node',
    // Nothing is drawn on a screen here: without this each start would look for a canvas package that is not there.
    resolve: { alias: { 'vega-canvas': join(folderOf('vega-canvas'), 'vega-canvas.browser.js') } },
    plugins: [noEncryption, noWebFonts, lateTables],
    logLevel: 'warn',
    onLog: (level, log, say) => {
      if (!KNOWN_REMARKS.includes(log.code)) say(level, log)
    },
  })
  await bundle.write({
    dir: app,
    format: 'cjs',
    chunkFileNames: '[name].js',
    codeSplitting: { groups: GROUPS },
    // White space and remarks go, names stay: less to read at each start, and traces of faults that can be read.
    minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
  })
  await bundle.close()
  const { minifySync } = await import('rolldown/utils')
  for (const name of readdirSync(app)) if (name.endsWith('.js')) makeLoadable(name, minifySync)
  copyFileSync(join(root, 'src', 'load-joined.cjs'), join(app, 'load.js'))
  for (const [thread, entry] of Object.entries(THREADS))
    writeFileSync(join(app, `${thread}.js`), `require('./load.js')('${entry}.js')\n`)
  writeFileSync(join(app, 'package.json'), '{ "type": "commonjs" }\n')
} catch (cause) {
  rmSync(app, { recursive: true, force: true })
  console.error(`burnline: not joined into few files (${cause.message.split('\n')[0]}); it runs as it is`)
}

mkdirSync(join(app, 'data'), { recursive: true })
// pdfkit reads its colour profile from beside itself.
copyFileSync(join(folderOf('pdfkit'), 'data', PROFILE), join(app, 'data', PROFILE))
const { makeReady } = await import('../dist/limits/read-template.js')
writeFileSync(join(app, 'templates.json'), JSON.stringify(makeReady()))
writeFileSync(
  join(app, 'made-from'),
  createHash('sha256')
    .update(readFileSync(join(dist, '.tsbuildinfo')))
    .digest('hex'),
)
keepCode()
