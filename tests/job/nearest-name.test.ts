import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { nearestName } from '../../src/job/nearest-name.ts'

const folder = mkdtempSync(join(tmpdir(), 'burnline-names-'))
afterAll(() => rmSync(folder, { recursive: true }))
mkdirSync(join(folder, 'captures'))
for (const name of ['idle.csv', 'snap.csv', 'snap.csv.gz', '.recorder-settings.csv'])
  writeFileSync(join(folder, 'captures', name), '')

test.each([
  ['capitals in the name', 'captures/Idle.CSV', 'captures/idle.csv'],
  ['capitals in the folder', 'Captures/idle.csv', 'captures/idle.csv'],
  ['capitals in both', 'CAPTURES/IDLE.CSV', 'captures/idle.csv'],
  ['no ending', 'captures/idle', 'captures/idle.csv'],
  ['no ending, and two that have one', 'captures/snap', ''],
  ['a blank too many', 'captures/ idle.csv', 'captures/idle.csv'],
  ['a packed one meant', 'captures/idle.csv.gz', 'captures/idle.csv'],
  ['another word', 'captures/cruising.csv', ''],
  ['hidden files are not offered', 'captures/recorder-settings.csv', ''],
  ['a folder that is not there', 'recordings/idle.csv', ''],
  ['a file in place of a folder', 'captures/idle.csv/x.csv', ''],
])('%s', async (_, asked, expected) => expect(await nearestName(folder, asked)).toBe(expected))
