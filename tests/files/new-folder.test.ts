import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { addFiles, namedCaptures, replaceText, writeNewFolder } from '../../src/files/new-folder.ts'
import { problemsOf } from '../capture/as-file.ts'

let work: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-new-'))
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

function source(path: string, text = 'x\n'): string {
  mkdirSync(join(work, path, '..'), { recursive: true })
  writeFileSync(join(work, path), text)
  return join(work, path)
}

test('names are kept, told apart by a number whatever their capitals, and made fit for a job', async () => {
  const paths = [
    'a/idle.csv.gz',
    'b/Idle.csv.gz',
    'c/idle.csv.gz',
    'd/two\nlines.csv',
    'e/turn\u202eed.csv',
  ].map((p) => source(p))
  expect((await namedCaptures(paths)).map((c) => c.file)).toEqual([
    'captures/idle.csv.gz',
    'captures/Idle-2.csv.gz',
    'captures/idle-3.csv.gz',
    'captures/two-lines.csv',
    'captures/turn-ed.csv',
  ])
})

test('a file is dated by its own time, in the zone of this machine', async () => {
  const path = source('dated.csv')
  utimesSync(path, 0, Date.UTC(2026, 2, 4, 9, 12, 5) / 1000)
  const { taken } = (await namedCaptures([path]))[0]!
  expect([Date.parse(taken), /[+-]\d\d:\d\d$/.test(taken)]).toEqual([Date.UTC(2026, 2, 4, 9, 12, 5), true])
})

test('every capture that is not there is named in one pass', async () => {
  const found = await problemsOf(
    namedCaptures([join(work, 'no.csv'), source('yes.csv'), work, join(work, 'neither.csv')]),
  )
  expect(found.map((p) => p.code)).toEqual(['no-such-file', 'unreadable-file', 'no-such-file'])
})

test('a file that is there is never replaced, and nothing is written beside it', async () => {
  const folder = join(work, 'job')
  const captures = [{ path: source('cap.csv', 'new'), file: 'captures/cap.csv', taken: '' }]
  source('job/job.yaml', 'mine')
  const found = await problemsOf(
    writeNewFolder(folder, {
      texts: new Map([
        ['job.yaml', 'x'],
        ['test-log.csv', 'y'],
      ]),
      captures,
    }),
  )
  expect(found.map((p) => `${p.code} ${p.file}`)).toEqual(['output-exists job.yaml'])
  expect([readFileSync(join(folder, 'job.yaml'), 'utf8'), readdirSync(folder)]).toEqual([
    'mine',
    ['job.yaml'],
  ])
})

test('a link that points at nothing is in the way as well', async () => {
  const folder = join(work, 'linked')
  mkdirSync(folder)
  symlinkSync(join(work, 'elsewhere'), join(folder, 'job.yaml'))
  expect(
    (await problemsOf(writeNewFolder(folder, { texts: new Map([['job.yaml', 'x']]), captures: [] }))).map(
      (p) => p.code,
    ),
  ).toEqual(['output-exists'])
  expect(existsSync(join(work, 'elsewhere'))).toBe(false)
})

test('a folder with other things in it is filled, and they stay', async () => {
  source('half/notes.txt', 'mine')
  await writeNewFolder(join(work, 'half'), {
    texts: new Map([['job.yaml', 'x']]),
    captures: [{ path: source('cap2.csv', 'data'), file: 'captures/cap2.csv', taken: '' }],
  })
  expect(readdirSync(join(work, 'half')).sort()).toEqual(['captures', 'job.yaml', 'notes.txt'])
  expect(readFileSync(join(work, 'half/captures/cap2.csv'), 'utf8')).toBe('data')
})

test('a link in a job leads nothing that is written to another place', async () => {
  const outside = join(work, 'outside')
  const job = join(work, 'led')
  mkdirSync(outside)
  mkdirSync(job)
  symlinkSync(outside, join(job, 'captures'))
  const capture = { path: source('led-from/x.csv'), file: 'captures/x.csv', taken: '' }
  const adding = addFiles(job, { text: '', captures: [capture] })
  expect((await problemsOf(adding)).map((p) => [p.code, p.file])).toEqual([
    ['leaves-folder', 'captures/x.csv'],
  ])
  expect(readdirSync(outside)).toEqual([])
  const kept = source('outside-file', 'kept')
  symlinkSync(kept, join(job, 'job.yaml.new'))
  await replaceText(join(job, 'job.yaml'), 'format: 1\n')
  expect([readFileSync(kept, 'utf8'), readFileSync(join(job, 'job.yaml'), 'utf8')]).toEqual([
    'kept',
    'format: 1\n',
  ])
})
