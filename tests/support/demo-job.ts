import { cpSync, readFileSync, writeFileSync } from 'node:fs'
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
