import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, describe, expect, test } from 'vitest'
import { inspectJob } from '../../src/job/inspect-job.ts'
import { readJob } from '../../src/job/read-job.ts'
import { JobError } from '../../src/problems/problem.ts'
import { EXAMPLE_FILES, EXAMPLE_JOB, EXAMPLE_LOG } from '../bench/fuzz/example-job.ts'

const made: string[] = []
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true })
})

/** A job folder with the example's files, some of them replaced or (undefined) left out. */
function folderWith(files: Readonly<Record<string, string | Uint8Array | undefined>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'job-')))
  made.push(folder)
  for (const [file, text] of Object.entries({ ...EXAMPLE_FILES, ...files })) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    if (text !== undefined) writeFileSync(join(folder, file), text)
  }
  return folder
}

/** Line of the example's job.yaml that holds a text. */
const lineOf = (text: string): number => EXAMPLE_JOB.slice(0, EXAMPLE_JOB.indexOf(text)).split('\n').length

const found = async (folder: string): Promise<string[]> =>
  (await inspectJob(folder)).problems.map(
    (p) => `${p.code} ${[p.file, p.line].filter((x) => x !== undefined).join(':')}`,
  )

describe('a folder in order', () => {
  test('is read whole', async () => {
    const folder = folderWith({})
    const read = await readJob(folder)
    expect(read.warnings).toEqual([])
    expect(read.job.engine).toMatchObject({ cylinders: 6, strokes: 4, banks: { 1: [1, 3, 5], 2: [2, 4, 6] } })
    expect(read.job.captures[0]!.channels[0]).toMatchObject({ scale: 1, polarity: 'auto', cylinders: 'all' })
    expect([...read.files.keys()].sort()).toEqual(Object.keys(EXAMPLE_FILES).sort())
    expect(read.files.get('captures/idle-before.csv')).toBe(join(folder, 'captures/idle-before.csv'))
  })

  test('lines of job.yaml by key path', async () => {
    const read = await readJob(folderWith({}))
    expect(read.lineOf('engine.pairs')).toBe(lineOf('pairs:'))
    expect(read.lineOf('captures.1.channels.1.cylinder')).toBe(lineOf('{ column: 2'))
    expect(read.lineOf('captures.1.time.sample_rate_hz')).toBe(lineOf('sample_rate_hz'))
  })

  test('rows of the log as written, with their lines; a row may span lines; unknown columns are kept', async () => {
    const { log } = await readJob(folderWith({}))
    expect(log.map((row) => row.line)).toEqual([2, 3])
    expect(log[0]!.cells).toEqual({
      at: '2026-03-04T09:20:00-05:00',
      step: 'trim',
      condition: 'idle',
      reading: 'STFT1',
      value: '1.6',
      unit: '%',
      'seen by': 'A. Invented',
    })
    expect(log[1]!.cells.note).toBe('first\nsecond')
  })

  test.each([
    ['byte-order marks', (t: string) => `\ufeff${t}`],
    ['CRLF', (t: string) => t.replaceAll('\n', '\r\n')],
    ['lone CR', (t: string) => t.replaceAll('\n', '\r')],
  ])('%s change nothing', async (_, change) => {
    const plain = await readJob(folderWith({}))
    const changed = await readJob(
      folderWith({ 'job.yaml': change(EXAMPLE_JOB), 'test-log.csv': change(EXAMPLE_LOG) }),
    )
    expect(changed.job).toEqual(plain.job)
    expect(changed.log).toEqual(plain.log)
    expect(changed.lineOf('complaint')).toBe(plain.lineOf('complaint'))
  })
})

describe('one JobError with the problems of all files', () => {
  test('job.yaml, test-log.csv and named files together', async () => {
    const folder = folderWith({
      'job.yaml': EXAMPLE_JOB.replace('fuel: E10', 'fuel: tea'),
      'photos/joint.jpg': undefined,
      'test-log.csv': EXAMPLE_LOG.replace(',trim,', ',trimm,'),
    })
    const error = await readJob(folder).catch((e: unknown) => e)
    expect(error).toBeInstanceOf(JobError)
    expect((error as JobError).problems.map((p) => p.code)).toEqual([
      'unknown-word',
      'missing-file',
      'unknown-step',
    ])
  })

  test('100 a file and a count', async () => {
    const row = '2026-03-04T09:20:00-05:00,none,,,,,,,,,,,,,,\n'
    const { problems } = await inspectJob(
      folderWith({ 'test-log.csv': EXAMPLE_LOG.split('\n')[0] + '\n' + row.repeat(5000) }),
    )
    expect(problems).toHaveLength(101)
    expect(problems[100]).toMatchObject({ code: 'more-problems', severity: 'refuse', args: { count: 4900 } })
  })

  test('what was found and expected', async () => {
    const { problems } = await inspectJob(
      folderWith({ 'job.yaml': EXAMPLE_JOB.replace('fuel: E10', 'fuel: tea').replace('closed:', 'clsoed:') }),
    )
    expect(problems.map((p) => p.args)).toEqual([
      { key: 'clsoed', nearest: 'closed' },
      { key: 'engine.fuel', found: 'tea', nearest: '', known: 'E0, E5, E10, E85, LPG, CNG' },
    ])
  })
})

describe('folders and files that are not what they should be', () => {
  test('no folder, a file for a folder', async () => {
    const folder = folderWith({})
    for (const [path, code] of [
      ['/no/such/folder', 'not-a-folder'],
      [join(folder, 'captures', 'idle-before.csv'), 'file-not-folder'],
    ] as const) {
      await expect(readJob(path)).rejects.toMatchObject({ problems: [{ code, args: { path } }] })
    }
    expect((await readJob(join(folder, 'job.yaml'))).folder).toBe((await readJob(folder)).folder)
  })

  test('a link out of the folder', async () => {
    const outside = folderWith({})
    const folder = folderWith({ 'captures/idle-before.csv': undefined })
    symlinkSync(join(outside, 'captures/idle-before.csv'), join(folder, 'captures/idle-before.csv'))
    expect(await found(folder)).toEqual([`leaves-folder job.yaml:${lineOf('captures/idle-before')}`])
  })

  test('a folder linked out of the folder, and job.yaml itself', async () => {
    const outside = folderWith({})
    const folder = folderWith({ 'photos/joint.jpg': undefined })
    symlinkSync(join(outside, 'photos'), join(folder, 'album'))
    writeFileSync(join(folder, 'job.yaml'), EXAMPLE_JOB.replace('photos/joint', 'album/joint'))
    expect(await found(folder)).toEqual([`leaves-folder job.yaml:${lineOf('photos/joint')}`])
    rmSync(join(folder, 'job.yaml'))
    symlinkSync(join(outside, 'job.yaml'), join(folder, 'job.yaml'))
    expect(await found(folder)).toEqual(['leaves-folder job.yaml'])
  })

  test('a link inside the folder is followed; the same file under two names is noticed', async () => {
    const folder = folderWith({ 'captures/pair-before.csv': undefined })
    symlinkSync('idle-before.csv', join(folder, 'captures/pair-before.csv'))
    expect(await found(folder)).toEqual([`duplicate-entry job.yaml:${lineOf('captures/pair-before')}`])
  })

  test('a link to itself', async () => {
    const folder = folderWith({ 'photos/joint.jpg': undefined })
    symlinkSync('joint.jpg', join(folder, 'photos/joint.jpg'))
    expect(await found(folder)).toEqual([`unreadable-file job.yaml:${lineOf('photos/joint')}`])
  })

  test.skipIf(process.platform === 'win32')(
    'a pipe, for a capture and for job.yaml, is not waited for',
    async () => {
      const folder = folderWith({ 'photos/joint.jpg': undefined, 'job.yaml': undefined })
      execFileSync('mkfifo', [join(folder, 'photos/joint.jpg')])
      writeFileSync(join(folder, 'job.yaml'), EXAMPLE_JOB)
      expect(await found(folder)).toEqual([`unreadable-file job.yaml:${lineOf('photos/joint')}`])
      rmSync(join(folder, 'job.yaml'))
      execFileSync('mkfifo', [join(folder, 'job.yaml')])
      expect(await found(folder)).toEqual(['unreadable-file job.yaml'])
    },
  )

  test.skipIf(process.getuid?.() === 0)('no permission', async () => {
    const folder = folderWith({})
    chmodSync(join(folder, 'photos/joint.jpg'), 0)
    expect(await found(folder)).toEqual([`unreadable-file job.yaml:${lineOf('photos/joint')}`])
  })

  test.each([
    ['a line end', '"photos/a\\nb.jpg"'],
    ['NUL', '"photos/a\\0b.jpg"'],
    ['a right-to-left mark', '"photos/a\\u202eb.jpg"'],
  ])('a name with %s', async (_, name) => {
    expect(await found(folderWith({ 'job.yaml': EXAMPLE_JOB.replace('photos/joint.jpg', name) }))).toEqual([
      `wrong-value job.yaml:${lineOf('photos/joint')}`,
    ])
  })
})

describe('text that is not text', () => {
  const bytes = (text: string, encoding: BufferEncoding) => Uint8Array.from(Buffer.from(text, encoding))
  test.each([
    [
      'Latin-1',
      bytes(EXAMPLE_JOB.replace('invented recorder', 'invented récorder'), 'latin1'),
      `not-utf8 job.yaml:${lineOf('invented recorder')}`,
    ],
    ['UTF-16', bytes(`\ufeff${EXAMPLE_JOB}`, 'utf16le'), 'not-utf8 job.yaml:1'],
    [
      'NUL bytes',
      bytes(EXAMPLE_JOB.replace('DEMO 1', 'DEMO\0 1'), 'utf8'),
      `not-utf8 job.yaml:${lineOf('DEMO 1')}`,
    ],
    ['only space', bytes(' \n \n', 'utf8'), 'empty-job job.yaml'],
    ['too large', bytes(`# ${'x'.repeat(300_000)}\n${EXAMPLE_JOB}`, 'utf8'), 'too-large job.yaml'],
  ])('%s', async (_, contents, expected) => {
    expect(await found(folderWith({ 'job.yaml': contents }))).toEqual([expected])
  })
})
