import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { partsOf } from '../../src/cli/commands/log.ts'
import { EXPORTS } from './raw-exports.ts'

/**
 * From raw exports of five habits to five reports with nothing but the commands of the README: no file is opened in an
 * editor, and every answer is counted. The exports come from the model; shop, vehicle and fault are invented.
 */

const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-walk-'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const burnline = (args: readonly string[], input = '') => {
  const run = spawnSync(process.execPath, [main, ...args], { cwd: work, encoding: 'utf8', input })
  return { status: run.status, out: run.stdout, err: run.stderr }
}

/** Answers to the questions of `new`, in their order; the first job is asked for the shop as well. */
const SHOP = [
  'Kettlebrook Demo Garage',
  'T. Sample, demo certificate 11',
  'two-channel scope with clamp, 5 %',
]
const JOB = ['', '2009 Demo Carrier 98123 mi', 'Shakes at a warm idle', '']
const MOST_ANSWERS = 10
/** Cylinder made lean in each style. */
const LEAN = { plain: 2, german: 3, coils: 4, segments: 1, counts: 3 } as const

/** The commands of the README's screen as printed, without what stands behind them. */
const screen = [
  ...readFileSync(fileURLToPath(new URL('../../README.md', import.meta.url)), 'utf8').matchAll(
    /^burnline (.+?)(?: {2,}.*)?$/gm,
  ),
]
  .map((line) => line[1]!)
  .slice(0, 8)

// Nobody is at the terminal, so nothing is asked: what the capture does not show is taken for granted and said.
test('the screen of the README, line by line', () => {
  const [before, after] = EXPORTS.plain()
  writeFileSync(join(work, 'before.csv'), before!.bytes)
  expect(screen.map((line) => line.split(' ')[0])).toEqual([
    'peek',
    'new',
    'log',
    'log',
    'log',
    'add',
    'check',
    'report',
  ])
  for (const line of screen) {
    if (line.startsWith('add')) writeFileSync(join(work, 'after.csv'), after!.bytes)
    const run = burnline(partsOf(line))
    expect(run.status, `${line}: ${run.err}`).toBe(0)
    if (line.startsWith('peek')) expect(run.out).toContain('burnline new makes a capture of it:')
    if (line.startsWith('report'))
      expect(run.out).toMatch(
        /^KB-26-0417 {2}lean on cylinder 2; .*repair confirmed.* outputs\/KB-26-0417\/report.pdf\n$/,
      )
  }
}, 120_000)

const OTHERS = Object.entries(EXPORTS).filter(([style]) => style !== 'plain')

describe.each(OTHERS)('%s', (style, make) => {
  test('becomes a report', () => {
    const files = make()
    const raw = join(work, `raw-${style}`)
    mkdirSync(raw)
    const [before, after] = files.map(({ name }) => join(raw, name))
    writeFileSync(before!, files[0]!.bytes)
    // The German recorder writes the day into its files: what was done in between is logged at its time.
    const at = style === 'german' ? ['at', '10:00'] : []
    const peek = burnline(['peek', before!])
    expect([peek.status, peek.err]).toEqual([0, ''])
    expect(peek.out).toContain('looks like an ignition secondary')

    const first = !existsSync(join(work, 'shop.yaml'))
    const answers = [...(first ? SHOP : []), ...JOB]
    expect(answers.length).toBeLessThanOrEqual(MOST_ANSWERS)
    const made = burnline(['new', style, before!, '--ask'], `${answers.join('\n')}\n`)
    expect(made.status, made.err).toBe(0)
    expect(made.out).not.toContain('not stated')

    const place = `intake joint ${LEAN[style as keyof typeof LEAN]}`
    const spray = burnline(['log', style, 'spray', place, 'response', ...at])
    expect(spray.err).toContain('WARNING: starting fluid and other sprays burn')
    expect(spray.out).toContain(`Spray, ${place}: response`)
    expect(burnline(['log', style, 'trim', 'STFT1', '11.7', 'LTFT1', '8', 'idle', ...at]).out).toContain(
      'STFT1 11.7 %',
    )
    if (style === 'german') {
      expect(burnline(['log', style, 'trim', 'STFT1', '99', ...at]).status).toBe(0)
      expect(burnline(['log', style, 'undo']).out).toContain('Taken out')
    }
    expect(burnline(['log', style, 'repair', place, 'fixed', ...at, 'note', 'joint renewed']).out).toContain(
      'Repair',
    )
    writeFileSync(after!, files[1]!.bytes)
    expect(burnline(['add', style, after!]).status).toBe(0)
    const checked = burnline(['check', style])
    expect([checked.status, checked.out]).toEqual([0, `${style}  in order\n`])

    const report = burnline(['report', style])
    expect(report.status).toBe(0)
    expect(report.out).toContain(`lean on cylinder ${LEAN[style as keyof typeof LEAN]}`)
    expect(report.out).toContain('repair confirmed')
    expect(existsSync(join(work, 'outputs', style, 'report.pdf'))).toBe(true)
  }, 120_000)
})
