import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { clearLeftovers } from '../../src/files/leftovers.ts'
import { makeRandom } from '../../src/maths/random.ts'

const writer = fileURLToPath(new URL('../support/write-forever.mjs', import.meta.url))
const sha256 = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex')

/** Files of an output against its own manifest; the turn it is of. */
function wholeTurn(target: string): number {
  const { turn, outputs } = JSON.parse(readFileSync(join(target, 'manifest.json'), 'utf8')) as {
    turn: number
    outputs: { file: string; sha256: string }[]
  }
  for (const { file, sha256: stated } of outputs) expect(sha256(join(target, file)), file).toBe(stated)
  expect(readdirSync(join(target, 'charts'))).toHaveLength(outputs.length)
  return turn
}

test(
  '50 kills at random moments of writing: what stands is whole, and never older than what stood before',
  { timeout: 120_000 },
  async () => {
    const root = mkdtempSync(join(tmpdir(), 'burnline-kill-'))
    const target = join(root, 'A-1')
    const random = makeRandom(7)
    let last = 0
    let movedAway = 0
    for (let kill = 0; kill < 50; kill++) {
      const child = spawn(process.execPath, [writer, target, String(last + 1)], {
        stdio: ['ignore', 'pipe', 'inherit'],
      })
      await once(child.stdout, 'data')
      await wait(5 + 60 * random.uniform())
      child.kill('SIGKILL')
      await once(child, 'exit')
      if (!existsSync(target) && last > 0) movedAway++
      await clearLeftovers(root, 'dead')
      expect(readdirSync(root).filter((name) => name !== 'A-1')).toEqual([])
      if (!existsSync(target)) continue
      const turn = wholeTurn(target)
      expect(turn).toBeGreaterThanOrEqual(last)
      last = turn
    }
    expect(last).toBeGreaterThan(5)
    process.stdout.write(
      `kills between the two renames, output put back by the next run: ${movedAway} of 50\n`,
    )
    rmSync(root, { recursive: true, force: true })
  },
)
