import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Makes the folder in which a run of the tests keeps measurements, and takes it away at its end. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'burnline-kept-'))
  process.env['BURNLINE_TEST_STORE'] = folder
  return () => rmSync(folder, { recursive: true, force: true })
}
