import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** The command as built. */
export const MAIN = join(root, 'dist', 'cli', 'main.js')

/** Copies a small demo job to a folder, under another work order. */
export function copyDemoJob(folder: string, workOrder: string): void {
  cpSync(join(root, 'inputs', 'third-cylinder-valve'), folder, { recursive: true })
  const path = join(folder, 'job.yaml')
  writeFileSync(path, readFileSync(path, 'utf8').replace(/^work_order: .*$/m, `work_order: "${workOrder}"`))
}

/** Writes a job of a log alone, which is reported several times as fast: for what does not depend on captures. */
export function makeLogJob(folder: string, workOrder: string): void {
  const from = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
  const yaml = readFileSync(join(from, 'job.yaml'), 'utf8')
  mkdirSync(folder, { recursive: true })
  writeFileSync(
    join(folder, 'job.yaml'),
    yaml.slice(0, yaml.indexOf('\ncaptures:') + 1).replace(/^work_order: .*$/m, `work_order: "${workOrder}"`),
  )
  cpSync(join(from, 'test-log.csv'), join(folder, 'test-log.csv'))
}
