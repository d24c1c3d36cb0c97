import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { resultSchema, type Result } from '../../src/records/result.ts'
import { samplePng } from '../support/sample-photo.ts'
import { allText, openPdf, pageText } from '../support/read-pdf.ts'
import { inProcess } from '../support/in-process.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const fixture = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
let work: string
let job: string
let shopName: string
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'burnline-shop-'))
  job = join(work, 'job')
  cpSync(fixture, job, { recursive: true })
  // The job names its shop and leaves the rest to the shop file.
  writeFileSync(
    join(job, 'job.yaml'),
    readFileSync(join(job, 'job.yaml'), 'utf8').replace(/^ {2}(address|phone|email|registration):.*\n/gm, ''),
  )
  shopName = (parse(readFileSync(join(job, 'job.yaml'), 'utf8')) as { shop: { name: string } }).shop.name
  mkdirSync(join(work, 'shop'))
  writeFileSync(join(work, 'shop', 'logo.png'), samplePng(120, 40))
  writeFileSync(
    join(work, 'shop', 'shop.yaml'),
    `format: 1\nname: ${JSON.stringify(shopName)}\nregistration: invented 0815\nlogo: logo.png\nlanguage: de\npage: LETTER\n`,
  )
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

const burnline = (...args: string[]) => inProcess(args, work)
const read = (...path: string[]) => readFileSync(join(work, ...path))
const resultOf = (...path: string[]): Result =>
  resultSchema.parse(JSON.parse(read(...path, 'result.json').toString('utf8')))
const pdfOf = (...path: string[]) => openPdf(read(...path, 'report.pdf'))
const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

describe('report --shop', () => {
  test('letterhead, logo, language and paper come from the shop file; both files are listed with their digests', async () => {
    const run = await burnline('report', job, '--shop', 'shop/shop.yaml', '--out', 'with')
    expect([run.status, run.stderr]).toEqual([0, ''])
    const result = resultOf('with', 'H-0001')
    expect(result).toMatchObject({
      language: 'de',
      page: 'LETTER',
      job: { shop: { name: shopName, registration: 'invented 0815' } },
    })
    const files = [
      ['shop', 'shop.yaml'],
      ['logo', 'logo.png'],
    ].map(([what, file]) => {
      const bytes = read('shop', file!)
      return { what, file, sha256: digest(bytes), bytes: bytes.length }
    })
    expect(result.handed_in).toEqual(files)
    expect(JSON.parse(read('with', 'H-0001', 'manifest.json').toString('utf8'))).toMatchObject({
      handed_in: files,
    })
    const pdf = await pdfOf('with', 'H-0001')
    expect(await pageText(pdf, 1)).toContain('invented 0815')
    const whole = await allText(pdf)
    for (const { sha256 } of files) expect(whole).toContain(sha256)
    expect((await (await pdf.getPage(1)).getOperatorList()).fnArray.length).toBeGreaterThan(0)
    expect(read('with', 'H-0001', 'report.pdf').toString('latin1')).toMatch(/\/Subtype \/Image\b/)
  })

  test('up to date while neither of its files changes; then due', async () => {
    const again = async () =>
      (await burnline('report', job, '--shop', 'shop/shop.yaml', '--out', 'with', '--why')).stdout
    expect(await again()).toContain('up to date')
    writeFileSync(join(work, 'shop', 'logo.png'), samplePng(120, 41))
    expect(await again()).toMatch(/option shop changed/)
    expect(await again()).toContain('up to date')
  })

  test('the command line goes before the shop file', async () => {
    await burnline(
      'report',
      job,
      '--shop',
      'shop/shop.yaml',
      '--language',
      'fr',
      '--page',
      'A4',
      '--out',
      'french',
    )
    expect(resultOf('french', 'H-0001')).toMatchObject({ language: 'fr', page: 'A4' })
  })

  test('a shop file that is wrong is a wrong command line that names file, line and key; one of another shop is refused', async () => {
    writeFileSync(join(work, 'bad.yaml'), 'format: 1\nfax: 1\n')
    const bad = await burnline('report', job, '--shop', 'bad.yaml', '--out', 'bad')
    expect(bad.status).toBe(64)
    expect(bad.stderr).toMatch(/bad\.yaml:2.*fax/)
    writeFileSync(join(work, 'other.yaml'), 'format: 1\nname: Another Garage (invented)\n')
    const other = await burnline('report', job, '--shop', 'other.yaml', '--out', 'bad')
    expect(other.status).toBe(65)
    expect(other.stderr).toContain('shop-differs')
    expect(existsSync(join(work, 'bad', 'H-0001'))).toBe(false)
  })
})

describe('report --replaces', () => {
  test('a reissue carries its number, the digest of what it replaces, and what changed; the old one stays', async () => {
    await burnline('report', job, '--out', 'first')
    const first = digest(read('first', 'H-0001', 'result.json'))
    writeFileSync(
      join(job, 'job.yaml'),
      readFileSync(join(job, 'job.yaml'), 'utf8').replace(
        /^complaint:.*$/m,
        'complaint: "Another complaint"',
      ),
    )
    const run = await burnline('report', job, '--replaces', 'first', '--out', 'second')
    expect(run.status).toBe(0)
    const { revision } = resultOf('second', 'H-0001')
    expect(revision).toMatchObject({ number: 2, replaces: { number: 1, result_sha256: first } })
    expect(revision!.changes.map(({ text }) => text)).toEqual(['Changed: job.yaml.'])
    expect(digest(read('first', 'H-0001', 'result.json'))).toBe(first)
    const pdf = await pdfOf('second', 'H-0001')
    expect(await pageText(pdf, 1)).toContain('2, replaces 1')
    const whole = await allText(pdf)
    for (const words of [first, 'Changed: job.yaml.', 'Revision 2']) expect(whole).toContain(words)
  })

  test('made again it is up to date; replacing it gives the next number', async () => {
    expect((await burnline('report', job, '--replaces', 'first', '--out', 'second')).stdout).toContain(
      'up to date',
    )
    await burnline('report', job, '--replaces', 'second/H-0001', '--out', 'third')
    expect(resultOf('third', 'H-0001').revision).toMatchObject({ number: 3, replaces: { number: 2 } })
    expect((await burnline('verify', 'third/H-0001')).status).toBe(0)
  })

  test('nothing to replace, no result there, or the same place: refused, and nothing is touched', async () => {
    const refused = async (replaces: string, out: string) => {
      const run = await burnline('report', job, '--replaces', replaces, '--out', out)
      expect(run.status).toBe(65)
      return run.stderr
    }
    expect(await refused('nowhere', 'none')).toMatch(/none stands there.*replaced-report/)
    mkdirSync(join(work, 'wrong', 'H-0001'), { recursive: true })
    writeFileSync(join(work, 'wrong', 'H-0001', 'result.json'), '{}')
    expect(await refused('wrong', 'none')).toMatch(/not one that this version can read/)
    const before = digest(read('second', 'H-0001', 'report.pdf'))
    expect(await refused('second', 'second')).toMatch(/would be overwritten/)
    expect(digest(read('second', 'H-0001', 'report.pdf'))).toBe(before)
  })
})
