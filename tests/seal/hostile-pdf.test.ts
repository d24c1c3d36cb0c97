import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { deflateSync } from 'node:zlib'
import { afterAll, describe, expect, test } from 'vitest'
import { sha256 } from '../../src/maths/sha256.ts'
import { embeddedFiles } from '../../src/seal/embedded-files.ts'
import { JsonValues } from '../../src/seal/json-values.ts'
import { PdfFile } from '../../src/seal/pdf-file.ts'

/** Reports made to fill a computer; built by hand (ISO 32000-2, 7.3 and 7.5), sealed as ours are so that all is looked into. */
const MOST_MIB = 256
const MOST_MS = 60_000
const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'burnline-hostile-pdf-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** @param objects  by number from 1; the first is the catalog */
function pdfOf(objects: readonly (string | Buffer)[], table?: (plain: string) => string): Buffer {
  const parts: Buffer[] = []
  let length = 0
  const add = (part: string | Buffer): void => {
    const bytes = Buffer.from(part as string, 'latin1')
    parts.push(bytes)
    length += bytes.length
  }
  add('%PDF-1.7\n%....\n')
  add(`%burnline-sha256 ${'0'.repeat(64)}\n%burnline-ed25519 ${'0'.repeat(64)} ${'0'.repeat(128)}\n`)
  const offsets = objects.map((object, i) => {
    const at = length
    add(`${i + 1} 0 obj\n`)
    add(object)
    add('\nendobj\n')
    return at
  })
  const at = length
  const plain = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${offsets.map((o) => `${String(o).padStart(10, '0')} 00000 n \n`).join('')}`
  add(table ? table(plain) : plain)
  add(`trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${at}\n%%EOF\n`)
  const pdf = Buffer.concat(parts)
  const seal = '%PDF-1.7\n%....\n'.length
  const body = pdf.indexOf('\n', pdf.indexOf('%burnline-ed25519')) + 1
  pdf.write(sha256(pdf.subarray(0, seal), pdf.subarray(body)), seal + '%burnline-sha256 '.length, 'latin1')
  return pdf
}

const streamOf = (packed: Buffer): Buffer =>
  Buffer.concat([
    Buffer.from(`<< /Length ${packed.length} /Filter /FlateDecode >>\nstream\n`),
    packed,
    Buffer.from('\nendstream'),
  ])
const catalog = '<< /Names << /EmbeddedFiles << /Names 2 0 R >> >> >>'
const spec = (name: string, stream: number): string => `<< /UF (${name}) /EF << /F ${stream} 0 R >> >>`
const embedding = (name: string, contents: Buffer): Buffer =>
  pdfOf([catalog, `[(${name}) 3 0 R]`, spec(name, 4), streamOf(deflateSync(contents, { level: 9 }))])

/** Names of streams that each unpack to a thousand times what they take. */
function manyBombs(): Buffer {
  const packed = deflateSync(Buffer.alloc(2 ** 26), { level: 9 })
  const names = Array.from({ length: 2000 }, (_, i) => `f${i}`)
  return pdfOf([
    catalog,
    `[${names.map((name, i) => `(${name}) ${i + 4} 0 R`).join(' ')}]`,
    streamOf(packed),
    ...names.map((name) => spec(name, 3)),
  ])
}

const HOSTILE: Readonly<Record<string, () => Buffer>> = {
  'a list of inputs that unpacks to 64 MiB of empty lists': () =>
    embedding('inputs.json', Buffer.from(`[${'[],'.repeat(2 ** 24)}[]]`)),
  'a list of inputs of 4 MiB that are none': () =>
    embedding('inputs.json', Buffer.from(`[${'{},'.repeat(2 ** 20)}{}]`)),
  'a record that unpacks to 1 GiB': () => embedding('result.json', Buffer.alloc(2 ** 30, 0x5b)),
  'a record of one endless value': () =>
    embedding('result.json', Buffer.from(`{"program":"${'a'.repeat(2 ** 27)}`)),
  'two thousand names of one bomb': manyBombs,
  'objects of a mebibyte asked for by every name': () => {
    const big = `<< /UF (${'('.repeat(2 ** 18)}${')'.repeat(2 ** 18)}) >>`
    return pdfOf([catalog, `[${'(a) 3 0 R '.repeat(60_000)}]`, big])
  },
  'values nested without end': () => pdfOf([catalog, `${'['.repeat(900_000)}`]),
  'an object that is its own': () => pdfOf(['1 0 R']),
  'a table of a hundred million entries': () =>
    pdfOf([catalog], (plain) => plain.replace('0 2\n', '0 100000000\n')),
  'a table of a million entries': () =>
    pdfOf(
      [catalog],
      (plain) => `${plain.replace('0 2\n', '0 1000002\n')}${'0000000015 00000 n \n'.repeat(1_000_000)}`,
    ),
  'a stream of a length beyond the file': () =>
    pdfOf([catalog, '[(a) 3 0 R]', spec('a', 4), '<< /Length 99999999999 >>\nstream\nx\nendstream']),
  'a form that points at itself': () =>
    pdfOf(['<< /AcroForm 2 0 R >>', '<< /Fields [2 0 R] /V 2 0 R /ByteRange [0 1 2 3] /Contents <00> >>']),
}

test('objects asked for again and again are read up to a bound', () => {
  const pdf = new PdfFile(pdfOf([`(${'a'.repeat(900_000)})`]))
  const load = (times: number) => {
    for (let i = 0; i < times; i++) pdf.load({ ref: 1 })
  }
  load(20)
  expect(() => load(20)).toThrow('more than a report holds')
})

test('a small report whose files unpack to hundreds of times its size is given up', async () => {
  const pdf = new PdfFile(embedding('x', Buffer.alloc(100_000_000)))
  await expect(embeddedFiles(pdf, new Map())).rejects.toThrow('unpack to more than a report holds')
})

// The most memory of a process is asked of the system, which tells it in this form on Linux alone.
describe.skipIf(process.platform !== 'linux').each(Object.keys(HOSTILE))('%s', (name) => {
  test(`ends with a finding within ${MOST_MIB} MiB and ${MOST_MS / 1000} s`, { timeout: 2 * MOST_MS }, () => {
    const path = join(folder, 'report.pdf')
    writeFileSync(path, HOSTILE[name]!())
    const asked = `const fs = require('node:fs')
process.on('exit', () => fs.writeSync(2, /VmHWM.*/.exec(fs.readFileSync('/proc/self/status', 'utf8'))[0]))`
    writeFileSync(join(folder, 'ask.cjs'), asked)
    const ended = spawnSync(process.execPath, ['--require', join(folder, 'ask.cjs'), main, 'verify', path], {
      encoding: 'utf8',
      timeout: MOST_MS,
    })
    expect([ended.status, ended.stderr]).toEqual([65, expect.stringContaining('error: ')])
    expect(ended.stderr).not.toContain('internal')
    const kib = Number(/VmHWM:\s+(\d+) kB/.exec(ended.stderr)![1])
    expect(kib / 1024).toBeLessThan(MOST_MIB)
  })
})

test('values are taken out of JSON text cut anywhere, and no others', () => {
  const text = JSON.stringify(
    {
      a: { program: 1 },
      program: { x: 'a"},{\\', y: [1, { program: 2 }] },
      inputs: [],
      'in"puts': 3,
      last: 'ö',
    },
    null,
    1,
  )
  const bytes = Buffer.from(text)
  for (const size of [1, 3, 7, bytes.length]) {
    const scan = new JsonValues(['program', 'inputs', 'last'])
    for (let at = 0; at < bytes.length; at += size) scan.push(bytes.subarray(at, at + size))
    expect(
      Object.fromEntries([...scan.values].map(([key, value]) => [key, JSON.parse(value) as unknown])),
    ).toEqual({ program: { x: 'a"},{\\', y: [1, { program: 2 }] }, inputs: [], last: 'ö' })
  }
})
