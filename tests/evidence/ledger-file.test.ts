import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { enterReports } from '../../src/evidence/ledger-file.ts'
import { enterOutcomes } from '../../src/cli/enter-ledger.ts'
import { HOST } from '../../src/files/whose.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { walkLedger } from '../../src/seal/ledger.ts'

const writer = fileURLToPath(new URL('../support/enter-ledger.mjs', import.meta.url))
const facts = (workOrder: string) => ({ work_order: workOrder, manifest: 'a'.repeat(64) })
let folder: string
let path: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-ledger-'))
  path = join(folder, 'ledger')
})
afterEach(() => rmSync(folder, { recursive: true }))
const walked = () => walkLedger(readFileSync(path, 'utf8'), path)

test(
  'processes that enter reports at the same time take turns: every report once, in one chain',
  { timeout: 60_000 },
  async () => {
    const names = ['A', 'B', 'C']
    const exits = await Promise.all(
      names.map(
        async (name) =>
          (
            (await once(
              spawn(process.execPath, [writer, path, name, '6'], { stdio: 'inherit' }),
              'exit',
            )) as [number]
          )[0],
      ),
    )
    expect(exits).toEqual([0, 0, 0])
    expect(walked().findings).toEqual([])
    expect([...walked().newest.keys()].sort()).toEqual(
      names.flatMap((name) => [1, 2, 3, 4, 5, 6].map((i) => `${name}-${i}`)),
    )
    expect(readdirSync(folder)).toEqual(['ledger'])
  },
)

test('what a killed process left, its turn and half a line, is taken over', async () => {
  await enterReports(path, [facts('A')], undefined)
  writeFileSync(path, '{"n":2,"previ', { flag: 'a' })
  const { pid } = spawnSync(process.execPath, ['--version'])
  writeFileSync(`${path}.turn`, `${HOST} ${pid}\n`)
  await enterReports(path, [facts('A'), facts('B')], undefined)
  expect([walked().findings, walked().n, [...walked().newest.keys()]]).toEqual([[], 2, ['A', 'B']])
  expect(readdirSync(folder)).toEqual(['ledger'])
})

test(
  'the turn of a process that runs, or of another machine, is left alone',
  { timeout: 60_000 },
  async () => {
    const holders = [`${HOST} ${process.pid}\n`, 'another-machine 1\n']
    // Each wait takes as long as a call waits for another: they are waited for together.
    await Promise.all(
      holders.map(async (holder, i) => {
        const own = `${path}-${i}`
        writeFileSync(`${own}.turn`, holder)
        await expect(enterReports(own, [facts('A')], undefined)).rejects.toMatchObject({
          problems: [{ code: 'cannot-write', args: { why: 'EEXIST' } }],
        })
        expect(readFileSync(`${own}.turn`, 'utf8')).toBe(holder)
      }),
    )
  },
)

test('what was made is entered, not what stands in its place by now', async () => {
  const output = join(folder, 'A')
  mkdirSync(output)
  writeFileSync(join(output, 'manifest.json'), 'put there since')
  const outcome = {
    folder: 'job',
    state: 'reported',
    workOrder: 'A',
    verdict: '',
    output,
    manifest: 'b'.repeat(64),
  } as const
  const told = { upToDate: false, why: [], warnings: [], unjudged: [] }
  await enterOutcomes(path, [{ ...outcome, ...told }], { texts: loadTexts('en') })
  expect([...walked().newest]).toEqual([['A', 'b'.repeat(64)]])
})

test('a link where the turn is written does not lead elsewhere', async () => {
  const other = join(folder, 'other')
  writeFileSync(other, 'kept')
  symlinkSync(other, `${path}.turn.${HOST}-${process.pid}.new`)
  await enterReports(path, [facts('A')], undefined)
  expect(readFileSync(other, 'utf8')).toBe('kept')
})
