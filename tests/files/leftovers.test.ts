import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { asidePrefix, clearLeftovers } from '../../src/files/leftovers.ts'

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-left-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

/** A folder a run left behind: a new output half built, and perhaps an old one moved away. */
function leave(name: string, old?: string): void {
  mkdirSync(join(root, name, 'new', 'charts'), { recursive: true })
  writeFileSync(join(root, name, 'new', 'report.pdf'), 'half')
  if (old === undefined) return
  mkdirSync(join(root, name, 'old-1', 'A-1'), { recursive: true })
  writeFileSync(join(root, name, 'old-1', 'A-1', 'manifest.json'), old)
}
const host = hostname().replace(/[^A-Za-z0-9]+/g, '_')
/** Larger than any process id of Linux (2^22) or Windows in use. */
const GONE = 999_999_999

test('what a run that is gone left is removed; outputs and other hidden folders stay', async () => {
  leave(`.burnline-tmp-${host}-${GONE}-a`)
  leave('.burnline-tmp-another_machine-1-b')
  mkdirSync(join(root, 'A-1'))
  mkdirSync(join(root, '.burnline-cache'))
  mkdirSync(join(root, '.hidden'))
  await clearLeftovers(root, 'dead')
  expect(readdirSync(root).sort()).toEqual(['.burnline-cache', '.hidden', 'A-1'])
})

test('an output moved away by a killed run is put back where none stands, and only there', async () => {
  leave(`.burnline-tmp-${host}-${GONE}-a`, 'old')
  await clearLeftovers(root, 'dead')
  expect(readFileSync(join(root, 'A-1', 'manifest.json'), 'utf8')).toBe('old')
  writeFileSync(join(root, 'A-1', 'manifest.json'), 'new')
  leave(`.burnline-tmp-${host}-${GONE}-b`, 'old')
  await clearLeftovers(root, 'dead')
  expect(readFileSync(join(root, 'A-1', 'manifest.json'), 'utf8')).toBe('new')
  expect(readdirSync(root)).toEqual(['A-1'])
})

test('the folder of a process that still runs is left alone; this process clears its own at its end', async () => {
  leave(`.burnline-tmp-${host}-${process.ppid}-a`)
  await clearLeftovers(root, 'dead')
  expect(readdirSync(root)).toHaveLength(1)
  leave(`${asidePrefix()}b`)
  await clearLeftovers(root, 'own')
  expect(readdirSync(root)).toEqual([`.burnline-tmp-${host}-${process.ppid}-a`])
})

test('no folder of outputs yet is nothing to clear', async () => {
  await clearLeftovers(join(root, 'not', 'there'), 'dead')
  expect(existsSync(join(root, 'not'))).toBe(false)
})
