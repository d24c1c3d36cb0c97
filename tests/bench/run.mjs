// Runs a bench written in TypeScript: node tests/bench/run.mjs sprays
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const [name] = process.argv.slice(2)
await runnerImport(fileURLToPath(new URL(`./${name}.ts`, import.meta.url)), {
  configFile: false,
  logLevel: 'error',
})
