/**
 * Joins the compiled program and its packages into a few files in dist/app/, and parses the templates that every job
 * reads. Plain JavaScript: part of the build. Where the bundler cannot be loaded nothing is lost but some speed.
 *
 *   node src/bundle.mjs
 */
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const dist = join(root, 'dist')
const app = join(dist, 'app')
/** Scripts that a process or a thread begins with, by the name they have in dist/app/. */
const ENTRIES = { run: 'cli/command-line.js', 'job-worker': 'batch/job-worker.js' }
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

/** Files of packages alone are written shorter inside as well. Those of our own are not, for traces of faults that can be read. */
const OF_PACKAGES = GROUPS.map(({ name }) => `${name}.js`)

/** Writes signs beyond ASCII as escapes: text of single bytes is read and kept in half the time and room. */
function makePlain(name, minify) {
  const text = readFileSync(join(app, name), 'utf8')
  const shorter = OF_PACKAGES.includes(name)
    ? minify(name, text, { compress: true, mangle: { keepNames: true } }).code
    : text
  writeFileSync(
    join(app, name),
    shorter.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`),
  )
}

/** Folder of the package a module belongs to, undefined for one of ours. */
const packageOf = (module) => /^(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/.exec(module)?.[1]

/** Name, version, licence and its text of every package of which something is in the joined files: they travel with it. */
function notices(packages) {
  const parts = packages.map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    const texts = readdirSync(folder).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file))
    const text = texts.sort().map((file) => readFileSync(join(folder, file), 'utf8').trim())
    return [`${name} ${version}, ${license ?? 'terms below'}`, ...text].join('\n\n')
  })
  return `${parts.sort().join(`\n\n${'-'.repeat(80)}\n\n`)}\n`
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
  const { output } = await bundle.write({
    dir: app,
    format: 'cjs',
    chunkFileNames: '[name].js',
    codeSplitting: { groups: GROUPS },
    // White space and remarks go, names stay: less to read at each start, and traces of faults that can be read.
    minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
  })
  await bundle.close()
  const { minifySync } = await import('rolldown/utils')
  for (const name of readdirSync(app)) if (name.endsWith('.js')) makePlain(name, minifySync)
  const font = dirname(
    createRequire(import.meta.url).resolve('@expo-google-fonts/source-sans-3/package.json'),
  )
  const used = output.flatMap(({ moduleIds = [] }) => moduleIds.flatMap((id) => packageOf(id) ?? []))
  writeFileSync(join(app, 'NOTICES.txt'), notices([...new Set([...used, font])]))
  writeFileSync(join(app, 'package.json'), '{ "type": "commonjs" }\n')
} catch (cause) {
  rmSync(app, { recursive: true, force: true })
  console.error(`burnline: not joined into few files (${cause.message.split('\n')[0]}); it runs as it is`)
}

mkdirSync(join(app, 'data'), { recursive: true })
// pdfkit reads its colour profile from beside itself, and the fonts are whole files too: with them the program needs no packages.
copyFileSync(join(folderOf('pdfkit'), 'data', PROFILE), join(app, 'data', PROFILE))
const { facePaths } = await import('../dist/texts/font-files.js')
for (const path of facePaths()) copyFileSync(path, join(app, 'data', basename(path)))
const { makeReady } = await import('../dist/limits/read-template.js')
writeFileSync(join(app, 'templates.json'), JSON.stringify(makeReady()))
