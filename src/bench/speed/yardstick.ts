import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { findPython, pythonCommand, type Command } from './timed.ts'

const SCRIPT = fileURLToPath(new URL('../../../../shared/yardstick/peer_report.py', import.meta.url))
const PACKAGES = 'numpy, scipy, pandas, matplotlib, reportlab, yaml'

/** The script a skilled practitioner would otherwise write, ready to run; or why it cannot. */
export type Yardstick =
  { ok: true; report: (args: readonly string[]) => Command } | { ok: false; why: string }

/** Finds the yardstick beside the checkout and a python3 with its packages. */
export function findYardstick(): Yardstick {
  if (!existsSync(SCRIPT)) return { ok: false, why: 'the yardstick is not beside this checkout' }
  const python = findPython(PACKAGES)
  if (python === undefined) return { ok: false, why: `no python3 with ${PACKAGES}` }
  return { ok: true, report: (args) => pythonCommand(python, [SCRIPT, ...args]) }
}
