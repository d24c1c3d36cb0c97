import { existsSync } from 'node:fs'
import { findPython, pythonCommand, type Command } from './timed.ts'

/** A Python script that does the same by other means: `<script> <folder> <out> [--many [--pool n]]`. */
const SCRIPT = process.env['BENCH_YARDSTICK']
const PACKAGES = 'numpy, scipy, pandas, matplotlib, reportlab, yaml'

/** The script a skilled practitioner would otherwise write, ready to run; or why it cannot. */
export type Yardstick =
  { ok: true; report: (args: readonly string[]) => Command } | { ok: false; why: string }

/** The yardstick that `BENCH_YARDSTICK` names, and a python3 with its packages. */
export function findYardstick(): Yardstick {
  if (SCRIPT === undefined || !existsSync(SCRIPT)) return { ok: false, why: 'BENCH_YARDSTICK names none' }
  const python = findPython(PACKAGES)
  if (python === undefined) return { ok: false, why: `no python3 with ${PACKAGES}` }
  return { ok: true, report: (args) => pythonCommand(python, [SCRIPT, ...args]) }
}
