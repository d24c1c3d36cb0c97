import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { deserialize, serialize } from 'node:v8'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { verifyOutput } from '../../src/evidence/verify-output.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { sha256 } from '../../src/maths/sha256.ts'
import { embeddedFiles } from '../../src/seal/embedded-files.ts'
import { PdfFile } from '../../src/seal/pdf-file.ts'
import { publicKeyOf } from '../../src/seal/signing-key.ts'
import { inProcess } from '../support/in-process.ts'
import { allText, openPdf, pageText } from '../support/read-pdf.ts'

/** Each test starts the program several times; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 240_000 })

const root = fileURLToPath(new URL('../..', import.meta.url))
const good = join(root, 'tests', 'fixtures', 'captures', 'a-four-level')
let work: string
let job: string
const burnline = (...args: readonly string[]) => inProcess(args, work)
const at = (...parts: string[]) => join(work, ...parts)
const copyOf = (name: string) => {
  const to = mkdtempSync(at('copy-'))
  cpSync(at(name), to, { recursive: true })
  return to
}

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'burnline-verify-'))
  job = at('job')
  cpSync(good, job, { recursive: true })
  const yaml = readFileSync(join(job, 'job.yaml'), 'utf8')
  writeFileSync(
    join(job, 'job.yaml'),
    yaml.replace(
      'complaint: Annual check, no complaint',
      'complaint: Annual check for Demo  customer, no complaint',
    ),
  )
  expect((await burnline('key', 'shop.key')).status).toBe(0)
  expect((await burnline('key', 'other.key')).status).toBe(0)
  expect(
    (await burnline('report', job, '--out', 'signed', '--key', 'shop.key', '--ledger', 'ledger')).stderr,
  ).not.toContain('error')
})
afterAll(() => rmSync(work, { recursive: true, force: true }))

test('a key is private, and never overwritten', async () => {
  expect(statSync(at('shop.key')).mode & 0o777).toBe(0o600)
  const before = readFileSync(at('shop.key'), 'utf8')
  expect((await burnline('key', 'shop.key')).status).toBe(73)
  expect(readFileSync(at('shop.key'), 'utf8')).toBe(before)
})

test('the same input and key give the same bytes', async () => {
  await burnline('report', job, '--out', 'again', '--key', 'shop.key')
  for (const file of ['manifest.json', 'report.pdf'])
    expect(readFileSync(at('again', 'H-0001', file)).equals(readFileSync(at('signed', 'H-0001', file)))).toBe(
      true,
    )
})

test('kept measurements that somebody else wrote reach no signed report, and none that is forced', async () => {
  cpSync(at('signed', '.burnline-cache'), at('poisoned', '.burnline-cache'), { recursive: true })
  const cache = at('poisoned', '.burnline-cache')
  const entries = readdirSync(cache, { recursive: true, encoding: 'utf8' })
    .map((name) => join(cache, name))
    .filter((path) => statSync(path).isFile())
  expect(entries.length).toBeGreaterThan(0)
  const forgeries = entries.map((path) => {
    const entry = deserialize(inflateRawSync(readFileSync(path).subarray(32))) as unknown
    const forged = deflateRawSync(serialize(halved(entry)))
    return [path, Buffer.concat([Buffer.from(sha256(forged), 'hex'), forged])] as const
  })
  const figures = async (...options: string[]) => {
    for (const [path, forged] of forgeries) writeFileSync(path, forged) // a call that measures keeps what it measured
    expect((await burnline('report', job, '--out', 'poisoned', ...options)).status).toBe(0)
    return readFileSync(at('poisoned', 'H-0001', 'events.csv'), 'utf8')
  }
  const right = readFileSync(at('signed', 'H-0001', 'events.csv'), 'utf8')
  const taken = await figures()
  expect(taken).not.toBe(right) // the forgery works where nothing is signed and nothing forced
  expect(await figures('--key', 'shop.key')).toBe(right)
  expect(await figures('--force')).toBe(right)
})

/** Every number of some kept measurement halved. */
function halved(value: unknown): unknown {
  if (typeof value === 'number') return value / 2
  if (Array.isArray(value)) return value.map(halved)
  if (value instanceof Map) return new Map([...value].map(([key, entry]) => [key, halved(entry)]))
  if (value !== null && typeof value === 'object' && Object.getPrototypeOf(value) === Object.prototype)
    return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, halved(entry)]))
  return value
}

describe('an output that stands as written', () => {
  test("folder, folder of folders and report alone hold, under the shop's key only", async () => {
    for (const path of ['signed/H-0001', 'signed', 'signed/H-0001/report.pdf']) {
      expect([path, (await burnline('verify', path, '--key', 'shop.key.pub')).status]).toEqual([path, 0])
      expect([path, (await burnline('verify', path, '--key', 'other.key.pub')).status]).toEqual([path, 65])
    }
  })

  test('sha256sum, which is not ours, agrees', async () => {
    const sums = (await burnline('verify', 'signed/H-0001', '--sums')).stdout
    const check = spawnSync('sha256sum', ['-c', '--strict'], {
      cwd: at('signed', 'H-0001'),
      input: sums,
      encoding: 'utf8',
    })
    expect([
      check.status,
      check.stdout
        .trim()
        .split('\n')
        .every((line) => line.endsWith(': OK')),
    ]).toEqual([0, true])
  })

  const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')
  const command = (begin: string) =>
    guide.slice(guide.indexOf(begin), guide.indexOf('```', guide.indexOf(begin)))
  const shell = (script: string, folder: string) =>
    spawnSync('sh', ['-c', script], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, KEY: at('shop.key.pub') },
    })

  const hasTools =
    ['openssl', 'perl', 'jq'].every((tool) => spawnSync(tool, ['-v']).error === undefined) &&
    spawnSync('openssl', ['version'], { encoding: 'utf8' }).stdout.startsWith('OpenSSL 3')
  if (!hasTools) console.warn('skipped: openssl 3, perl or jq not present')
  test.skipIf(!hasTools)('the guide’s line for sha256sum finds every file, and one that was changed', () => {
    const folder = copyOf('signed/H-0001')
    const whole = shell(command('jq -r'), folder)
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (name) => /\.\w+$/.test(name) && name !== 'manifest.json',
    )
    expect([whole.status, whole.stdout.trim().split('\n').sort()]).toEqual([
      0,
      files.map((name) => `${name}: OK`).sort(),
    ])
    writeFileSync(join(folder, 'tests.csv'), 'x', { flag: 'a' })
    expect(shell(command('jq -r'), folder)).toMatchObject({
      status: 1,
      stdout: expect.stringContaining('tests.csv: FAILED') as unknown,
    })
  })

  test.skipIf(!hasTools)(
    'the guide’s lines for the manifest and its signature hold, and fail when either is changed',
    () => {
      const folder = copyOf('signed/H-0001')
      const check = () => shell(command('jq -cSj'), folder).status
      expect(check()).toBe(0)
      const manifest = readFileSync(join(folder, 'manifest.json'), 'utf8')
      writeFileSync(join(folder, 'manifest.json'), manifest.replace('"H-0001"', '"H-0009"'))
      expect(check()).not.toBe(0)
      writeFileSync(
        join(folder, 'manifest.json'),
        manifest.replace(
          /("signature": ")(.)/,
          (_, name: string, digit: string) => `${name}${digit === '0' ? '1' : '0'}`,
        ),
      )
      expect(check()).not.toBe(0)
    },
  )

  test('what is not there: exit 66; nothing named: exit 64', async () => {
    expect((await burnline('verify', 'nowhere')).status).toBe(66)
    expect((await burnline('verify')).status).toBe(64)
  })
})

const broken = async (path: string, key?: string) => {
  const publicKey = key === undefined ? {} : { publicKey: publicKeyOf(readFileSync(key, 'utf8')) }
  return (await verifyOutput(path, publicKey)).findings
    .filter((f) => f.severity === 'broken')
    .map((f) => `${f.code} ${f.file}`)
}

describe('an output that was changed', () => {
  test('one byte of any file, at random and at both ends', async () => {
    const folder = copyOf('signed/H-0001')
    const random = makeRandom(99)
    const quiet: string[] = []
    for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      statSync(join(folder, name)).isFile(),
    )) {
      const whole = readFileSync(join(folder, file))
      for (const where of [
        0,
        whole.length - 1,
        ...Array.from({ length: 6 }, () => Math.floor(random.uniform() * whole.length)),
      ]) {
        const changed = Buffer.from(whole)
        changed[where]! ^= 1 << Math.floor(random.uniform() * 8)
        writeFileSync(join(folder, file), changed)
        if ((await broken(folder)).length === 0) quiet.push(`${file} ${where}`)
      }
      writeFileSync(join(folder, file), whole)
    }
    expect(quiet).toEqual([])
    expect(await broken(folder)).toEqual([])
  })

  test('a file missing, a file too many, no manifest', async () => {
    const folder = copyOf('signed/H-0001')
    rmSync(join(folder, 'tests.csv'))
    writeFileSync(join(folder, 'charts', 'note.txt'), 'x')
    expect((await broken(folder)).sort()).toEqual(['extra charts/note.txt', 'missing tests.csv'])
    rmSync(join(folder, 'manifest.json'))
    expect(await broken(folder)).toEqual(['no-manifest manifest.json'])
    expect((await burnline('verify', dirname(folder))).stderr).toContain('there is no manifest.json')
  })

  test('files of another report, each whole and signed, put into this one', async () => {
    const folder = copyOf('signed/H-0001')
    await burnline('report', job, '--out', 'letter', '--key', 'shop.key', '--page', 'LETTER')
    cpSync(at('letter', 'H-0001', 'report.pdf'), join(folder, 'report.pdf'))
    expect(await broken(folder, at('shop.key.pub'))).toContain('changed report.pdf')
  })
})

describe('a ledger', () => {
  test('a rerun enters nothing twice; a deleted report shows', async () => {
    await burnline('report', job, '--out', 'signed', '--key', 'shop.key', '--ledger', 'ledger')
    expect(readFileSync(at('ledger'), 'utf8').trim().split('\n')).toHaveLength(1)
    expect((await burnline('verify', 'signed', '--ledger', 'ledger', '--key', 'shop.key.pub')).status).toBe(0)
    writeFileSync(at('entries'), readFileSync(at('ledger')))
    const other = at('other-job')
    cpSync(job, other, { recursive: true })
    writeFileSync(
      join(other, 'job.yaml'),
      readFileSync(join(job, 'job.yaml'), 'utf8').replace('H-0001', 'H-0002'),
    )
    await burnline('report', other, '--out', 'gone', '--key', 'shop.key', '--ledger', 'ledger')
    const run = await burnline('verify', 'signed', '--ledger', 'ledger')
    expect([run.status, run.stderr.includes('H-0002')]).toEqual([65, true])
  })
})

describe('a redacted copy', () => {
  test('shows none of the words taken out, holds against the signature, and names what it withholds', async () => {
    const run = await burnline(
      'redact',
      job,
      '--redact',
      'customer,plate,technician',
      '--key',
      'shop.key',
      '--out',
      'copies',
    )
    expect([run.status, run.stderr]).toEqual([0, ''])
    const folder = at('copies', 'H-0001.redacted')
    for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      /\.(json|csv|svg|txt)$/.test(name),
    )) {
      const text = readFileSync(join(folder, file), 'utf8')
      expect([file, /Demo\s+Customer|DEMO 1|A\. Demo/i.test(text)]).toEqual([file, false])
    }
    const pdf = readFileSync(join(folder, 'report.pdf'))
    const words = await allText(await openPdf(pdf))
    expect(await pageText(await openPdf(pdf), 1)).toContain('redacted copy')
    const whole = new Map(
      ['result.json', 'inputs.json', 'cylinders.csv', 'events.csv', 'tests.csv'].map(
        (name) => [name, 'all'] as const,
      ),
    )
    const embedded = await embeddedFiles(new PdfFile(pdf), whole)
    for (const text of [
      words,
      ...[...embedded.values()].map(({ data }) => Buffer.from(data!).toString('utf8')),
    ])
      expect(text).not.toMatch(/Demo\s+Customer|DEMO 1|A\. Demo/i)
    const checked = await burnline(
      'verify',
      folder,
      '--key',
      'shop.key.pub',
      '--original',
      'signed/H-0001/manifest.json',
    )
    expect([checked.status, checked.stderr]).toEqual([0, ''])
    for (const part of ['job/customer', 'job/vehicle/plate', 'job/technician', 'job/complaint'])
      expect(checked.stdout).toContain(part)
    expect(checked.stdout).not.toContain('cylinders/0')
    expect((await burnline('verify', folder, '--original', 'letter/H-0001/manifest.json')).status).toBe(65)
  })

  test('the digest of no written input is left in it, nor the salt of a withheld part', () => {
    const manifest = JSON.parse(readFileSync(at('copies', 'H-0001.redacted', 'manifest.json'), 'utf8')) as {
      inputs: { file: string; sha256: string }[]
      redaction: { parts: { path: string; salt?: string }[] }
    }
    expect(
      manifest.inputs.filter(({ sha256 }) => !/^[0-9a-f]{64}$/.test(sha256)).map(({ file }) => file),
    ).toEqual(['job.yaml', 'test-log.csv'])
    expect(manifest.redaction.parts.filter(({ salt }) => salt === undefined).map(({ path }) => path)).toEqual(
      expect.arrayContaining(['job/customer', 'job/vehicle/plate']),
    )
  })

  test('a part shown and changed is found, even where the copy is sealed anew', async () => {
    const { sealManifest, readSeal } = await import('../../src/seal/seal-manifest.ts')
    const { createHash } = await import('node:crypto')
    const folder = copyOf('copies/H-0001.redacted')
    const text = readFileSync(join(folder, 'result.json'), 'utf8').replace(
      '"verdict": "level"',
      '"verdict": "lean"',
    )
    writeFileSync(join(folder, 'result.json'), text)
    const manifest = JSON.parse(readSeal(readFileSync(join(folder, 'manifest.json'), 'utf8'))!.body) as {
      outputs: { file: string; sha256: string; bytes: number }[]
    }
    Object.assign(
      manifest.outputs.find(({ file }) => file === 'result.json')!,
      { sha256: createHash('sha256').update(text).digest('hex') },
    )
    writeFileSync(join(folder, 'manifest.json'), sealManifest(`${JSON.stringify(manifest, null, 2)}\n`))
    expect(await broken(folder)).toContain('redaction-broken manifest.json')
  })

  test('options of the original are given again: the copy is then of that very original', async () => {
    writeFileSync(at('limits.yaml'), 'lateRisePct: 25\n')
    writeFileSync(at('causes.yaml'), 'unsure: 0.5\n')
    const made = [
      '--key',
      'shop.key',
      '--page',
      'LETTER',
      '--captures',
      '--limits',
      'limits.yaml',
      '--causes',
      'causes.yaml',
    ]
    expect((await burnline('report', job, '--out', 'other-way', ...made)).status).toBe(0)
    const { ledger } = JSON.parse(readFileSync(at('other-way/H-0001/result.json'), 'utf8')) as {
      ledger: { overridden: { text: string } }
    }
    expect(ledger.overridden.text).toContain('unsure')
    // A word of the complaint is one of the shop's name too.
    const asked = await burnline('redact', job, '--redact', 'shop', '--out', 'other-copies', ...made)
    expect([asked.status, asked.stderr]).toEqual([65, expect.stringContaining('[near-form]')])
    expect(
      (await burnline('redact', job, '--redact', 'shop', '--near', 'keep', '--out', 'other-copies', ...made))
        .status,
    ).toBe(0)
    const checked = await burnline(
      'verify',
      'other-copies/H-0001.redacted',
      '--key',
      'shop.key.pub',
      '--original',
      'other-way/H-0001/manifest.json',
    )
    expect([checked.status, checked.stderr]).toEqual([0, ''])
  })

  test('report takes the option too: the same copy', async () => {
    const run = await burnline(
      'report',
      job,
      '--redact',
      'customer,plate,technician',
      '--key',
      'shop.key',
      '--out',
      'same-copies',
    )
    expect([run.status, run.stderr]).toEqual([0, ''])
    expect(readdirSync(at('same-copies'))).toEqual(['H-0001.redacted'])
    for (const file of ['manifest.json', 'report.pdf'])
      expect(
        readFileSync(at('same-copies', 'H-0001.redacted', file)).equals(
          readFileSync(at('copies', 'H-0001.redacted', file)),
        ),
      ).toBe(true)
  })

  test('a record changed beyond reading is found, not stumbled over', async () => {
    const folder = copyOf('copies/H-0001.redacted')
    writeFileSync(join(folder, 'result.json'), 'null')
    expect(await broken(folder)).toEqual(
      expect.arrayContaining(['changed result.json', 'redaction-broken manifest.json']),
    )
  })

  test('a wrong field: exit 64', async () =>
    expect((await burnline('redact', job, '--redact', 'customer,weather')).status).toBe(64))
})
