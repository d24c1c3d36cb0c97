import { runnerImport } from 'vite'

/** Runs a TypeScript bench as it stands, without a build: node tests/bench/run.mjs tests/bench/<name>.ts */
const [file] = process.argv.slice(2)
if (file === undefined) throw new Error('which bench? node tests/bench/run.mjs tests/bench/<name>.ts')
await runnerImport(file, { configFile: false, logLevel: 'error' })
