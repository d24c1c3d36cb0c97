import { spawnSync } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { partsOf } from '../../src/cli/commands/log.ts'
import { burnline } from '../support/at-terminal.ts'
import { EXPORTS } from './raw-exports.ts'

/**
 * From raw exports of five habits to five reports with nothing but the commands of the README: no file is opened in an
 * editor, and every command and answer is counted. The exports come from the model; shop, vehicle and fault are invented.
 */

const readme = readFileSync(fileURLToPath(new URL('../../README.md', import.meta.url)), 'utf8')
const at = { folder: process.cwd(), zone: process.env['TZ'] }
let work: string
beforeAll(() => {
  work = realpathSync(mkdtempSync(join(tmpdir(), 'burnline-walk-')))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

/** The commands of the README's screen as printed, without what stands behind them. */
const screen = [...readme.matchAll(/^burnline (.+?)(?: {2,}.*)?$/gm)].map((line) => line[1]!).slice(0, 8)

// In processes of their own, as from a shell, where nobody answers: what the capture does not show is taken for granted and said.
test('the screen of the README, line by line', () => {
  const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
  const folder = join(work, 'screen')
  mkdirSync(folder)
  const [before, after] = EXPORTS.plain()
  writeFileSync(join(folder, 'before.csv'), before!.bytes)
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
    if (line.startsWith('add')) writeFileSync(join(folder, 'after.csv'), after!.bytes)
    const run = spawnSync(process.execPath, [main, ...partsOf(line)], {
      cwd: folder,
      encoding: 'utf8',
      input: '',
    })
    expect(run.status, `${line}: ${run.stderr}`).toBe(0)
    if (line.startsWith('peek')) expect(run.stdout).toContain('burnline new makes a capture of it:')
    if (line.startsWith('report'))
      expect(run.stdout).toMatch(
        /^KB-26-0417 {2}lean on cylinder 2; .*repair confirmed.* outputs\/KB-26-0417\/report.pdf\n$/,
      )
  }
}, 120_000)

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
type Style = keyof typeof LEAN

/** Time at the keyboard by the keystroke-level model (Card, Moran and Newell 1980, from memory): a key, and a thought before each line, s. */
const KEY_S = 0.28
const THOUGHT_S = 1.35

interface Walked {
  style: Style
  text: string
  commands: number
  answers: number
  /** Times a file of the job was changed by anything but a command. */
  edits: number
  typed: number
}

/** One job from its export to its report; every line is typed at a clock that is set. */
async function walk(style: Style, clock: (time: string) => void): Promise<Walked> {
  const [before, after] = EXPORTS[style]()
  const walked = { style, text: '', commands: 0, answers: 0, edits: 0, typed: 0 }
  let left = textsOf(style)
  const put = (file: string, bytes: Uint8Array, time: string) => {
    writeFileSync(join(work, file), bytes)
    utimesSync(join(work, file), new Date(`2026-03-04T${time}Z`), new Date(`2026-03-04T${time}Z`))
  }
  const type = async (line: string, time: string, answers: readonly string[] = []) => {
    clock(time)
    if (textsOf(style) !== left) walked.edits += 1
    const call = await burnline(partsOf(line), answers)
    expect(call.status, `${line}: ${call.err}`).toBe(0)
    walked.commands += 1
    walked.answers += call.answered.length
    walked.typed += [`burnline ${line}`, ...call.answered].reduce((sum, each) => sum + each.length + 1, 0)
    walked.text += `${time.slice(0, 5)} $ burnline ${line}\n${call.seen.replaceAll(`${work}/`, '')}`
    left = textsOf(style)
    return call
  }
  const place = `intake joint ${LEAN[style]}`
  put(before!.name, before!.bytes, '09:12:00')
  expect((await type(`peek "${before!.name}"`, '09:20:00')).out).toContain('looks like an ignition secondary')
  const answers = [...(existsSync(join(work, 'shop.yaml')) ? [] : SHOP), ...JOB]
  const made = await type(`new ${style} "${before!.name}" --ask`, '09:22:00', answers)
  expect(made.answered).toEqual(answers)
  expect(made.answered.length).toBeLessThanOrEqual(MOST_ANSWERS)
  expect(made.out).not.toContain('not stated')
  const spray = await type(`log ${style} spray "${place}" response`, '09:40:00')
  expect(spray.err).toContain('WARNING: starting fluid and other sprays burn')
  expect(spray.out).toContain(`Spray, ${place}: response`)
  const trim = await type(`log ${style} trim STFT1 11.7 LTFT1 8 idle at 9:35`, '09:45:00')
  expect(trim.out).toContain('STFT1 11.7 %')
  if (style === 'german') {
    await type(`log ${style} trim STFT1 99`, '09:46:00')
    expect((await type(`log ${style} undo`, '09:46:30')).out).toContain('Taken out')
  }
  const repair = await type(`log ${style} repair "${place}" fixed note joint renewed`, '10:30:00')
  expect(repair.out).toContain('Repair')
  put(after!.name, after!.bytes, '11:40:00')
  await type(`add ${style} "${after!.name}"`, '11:45:00')
  expect((await type(`check ${style}`, '11:46:00')).seen).toBe(`${style}  in order\n`)
  const report = await type(`report ${style}`, '11:47:00')
  expect(report.out).toContain(`lean on cylinder ${LEAN[style]}`)
  expect(report.out).toContain('repair confirmed')
  expect(existsSync(join(work, 'outputs', style, 'report.pdf'))).toBe(true)
  expect(walked.edits).toBe(0)
  return walked
}

/** What an editor could change in a job. */
const textsOf = (job: string): string =>
  ['job.yaml', 'test-log.csv']
    .map((name) => join(work, job, name))
    .map((path) => (existsSync(path) ? readFileSync(path, 'utf8') : ''))
    .join('\n')

const minutes = ({ commands, answers, typed }: Pick<Walked, 'commands' | 'answers' | 'typed'>): string =>
  ((typed * KEY_S + (commands + answers) * THOUGHT_S) / 60).toFixed(1)

describe('five habits', () => {
  const all: Walked[] = []
  beforeAll(() => {
    process.env['TZ'] = 'UTC'
    process.chdir(work)
    vi.useFakeTimers({ toFake: ['Date'] })
  })
  afterAll(() => {
    vi.useRealTimers()
    process.chdir(at.folder)
    if (at.zone === undefined) delete process.env['TZ']
    else process.env['TZ'] = at.zone
  })

  test.each(Object.keys(LEAN) as Style[])('%s becomes a report', async (style) => {
    all.push(await walk(style, (time) => void vi.setSystemTime(`2026-03-04T${time}Z`)))
  })

  // Written anew with `npm test -- tests/onboard -u` where what the program says has changed.
  test('are kept as they were walked', async () => {
    const rows = all.map(
      (each) =>
        `${each.style.padEnd(10)}${String(each.commands).padStart(9)}${String(each.answers).padStart(9)}${String(each.edits).padStart(7)}${minutes(each).padStart(9)}`,
    )
    const head = [
      'From five raw exports to five reports with nothing known but the README. Engines, shop and faults are invented.',
      'Minutes are those at the keyboard by the keystroke-level model: 0.28 s a key, 1.35 s of thought a line.',
      '',
      'export     commands  answers  edits  minutes',
      ...rows,
    ]
    const text = [...head, ...all.map(({ style, text: seen }) => `\n==== ${style}\n\n${seen}`)].join('\n')
    await expect(text).toMatchFileSnapshot('walk.txt')
  })
})
