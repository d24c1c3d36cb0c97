import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { jsonText } from '../../src/cli/print-json.ts'
import { visible } from '../../src/problems/control-characters.ts'

const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
/** A folder whose name clears the line and writes a result of its own. */
const FORGED = 'job\n\u001b[2KKB-1  level; in order'
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-names-'))
  mkdirSync(join(work, FORGED))
  writeFileSync(join(work, FORGED, 'job.yaml'), 'format: 1\n')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

test.each([['report'], ['check'], ['list'], ['verify'], ['peek']])(
  '%s: a name of a file cannot forge a line or steer the terminal',
  (command) => {
    const { stdout, stderr } = spawnSync(process.execPath, [main, command, FORGED], {
      cwd: work,
      encoding: 'utf8',
    })
    const said = stdout + stderr
    expect(said).not.toContain('\u001b')
    expect(said).not.toMatch(/^KB-1/m)
    expect(said).toContain('\\u{1b}')
  },
)

test('JSON holds nothing that a terminal obeys, and reads back as it was', () => {
  const name = '\u001b[2K\u007f\u009b2J\u202e\u2028\ufeff ü\ud83d\ude97'
  for (const indent of [undefined, 2]) {
    const text = jsonText({ [name]: [name] }, indent)
    expect(JSON.parse(text)).toEqual({ [name]: [name] })
    expect(visible(text.replaceAll('\n', ''))).toBe(text.replaceAll('\n', ''))
  }
})
