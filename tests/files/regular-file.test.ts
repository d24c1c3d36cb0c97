import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { afterAll, describe, expect, test, vi } from 'vitest'
import { readRegular, readRegularSync } from '../../src/files/regular-file.ts'

/** What the look before the opening sees in place of what stands there. */
const seen = vi.hoisted((): { path?: string } => ({}))
vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>()
  return { ...fs, statSync: (path: string) => fs.statSync(seen.path ?? path) }
})
vi.mock('node:fs/promises', async (original) => {
  const fs = await original<typeof import('node:fs/promises')>()
  return { ...fs, stat: (path: string) => fs.stat(seen.path ?? path) }
})

const folder = mkdtempSync(join(tmpdir(), 'burnline-regular-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const plain = join(folder, 'plain')
writeFileSync(plain, 'words')

const WAYS: Readonly<Record<string, (path: string) => Promise<Buffer>>> = {
  'at once': (path) => new Promise((read) => read(readRegularSync(path))),
  later: readRegular,
}

describe.skipIf(process.platform === 'win32').each(Object.keys(WAYS))('read %s', (way) => {
  const read = WAYS[way]!
  const pipe = join(folder, `pipe ${way}`)
  spawnSync('mkfifo', [pipe])

  test('a file is read', async () => {
    expect((await read(plain)).toString()).toBe('words')
  })

  test('a pipe is not even opened: whoever waits to write into it goes on waiting', async () => {
    const writer = spawn('sh', ['-c', 'echo begun; exec > "$0"; echo words', pipe], {
      stdio: ['ignore', 'pipe', 'ignore'],
    })
    const ended = once(writer, 'close')
    await once(writer.stdout, 'data')
    await pause(100) // until it waits
    await expect(read(pipe)).rejects.toMatchObject({ code: 'phrase.not-a-regular-file' })
    await pause(100)
    expect([writer.exitCode, writer.signalCode]).toEqual([null, null])
    expect(readFileSync(pipe, 'utf8')).toBe('words\n')
    await ended
  })

  test('a pipe that took the place of a file after the look is refused once it is opened', async () => {
    seen.path = plain
    try {
      await expect(read(pipe)).rejects.toMatchObject({ code: 'phrase.not-a-regular-file' })
    } finally {
      delete seen.path
    }
  })
})
