// Runs a bench written in TypeScript against the built program: node tests/bench/run.mjs sprays [words of the bench]
// Builds first where that is due. What a bench or its helpers import of src/ is the built file of dist/, the one that ships.
import { spawnSync } from 'node:child_process'
import { dirname, relative, resolve, sep } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const src = resolve(root, 'src')

/** Processes and threads that a bench starts run what its own process has built. */
if (process.env.BENCH_BUILT === undefined) {
  const built = spawnSync(process.execPath, [resolve(root, 'src/bootstrap.mjs'), 'build'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  if (built.status !== 0) process.exit(built.status ?? 70)
  process.env.BENCH_BUILT = '1'
}

const asBuilt = {
  name: 'as-built',
  enforce: 'pre',
  transform: (code, id) =>
    code.replace(/((?:from|import\()\s*)'(\.[^']+)\.ts'/g, (whole, before, path) => {
      const target = resolve(dirname(id), path)
      return target.startsWith(src + sep)
        ? `${before}'${pathToFileURL(resolve(root, 'dist', `${relative(src, target)}.js`))}'`
        : whole
    }),
}

const { runnerImport } = await import('vite')
const [name] = process.argv.splice(2, 1)
await runnerImport(resolve(root, 'tests/bench', `${name}.ts`), {
  configFile: false,
  logLevel: 'error',
  plugins: [asBuilt],
})
