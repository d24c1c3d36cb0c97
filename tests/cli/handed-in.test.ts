import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readHandedIn, type HandedIn } from '../../src/cli/read-handed-in.ts'
import { methodOf } from '../../src/chain/phases/method.ts'
import { loadLimits } from '../../src/limits/limits.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-handed-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text)
  return join(folder, name)
}

const proof = {
  format: 1,
  program: { name: 'burnline', version: '0.1.0', sha256: 'abc' },
  date: '2026-03-04',
  holds: true,
  worst: [{ figure: 'burnErrorPct', unit: '%', error: 0.7, limit: 3, capture: 'x' }],
  captures: [],
}

test('limits of the shop, its own weights of causes and a proof are read', () => {
  const read = readHandedIn({
    limits: file('limits.yaml', 'lateRisePct: 25\n'),
    causes: file('causes.yaml', 'unsure: 0.5\n'),
    proof: file('proof.json', JSON.stringify(proof)),
  })
  expect(read).toEqual({ limits: { lateRisePct: 25 }, causes: { unsure: 0.5 }, proof })
})

test.each([
  ['a limit that does not exist', { limits: 'lateRise: 25\n' }, /lateRise/],
  ['a limit that is no number', { limits: 'lateRisePct: many\n' }, /lateRisePct/],
  [
    'a cause that does not exist',
    { causes: 'causes: { plug-wron: { prior: 3, where: engine, families: [], places: [] } }\n' },
    /plug-wron/,
  ],
  [
    'a ratio beyond all bounds',
    { causes: 'evidence: { spray-silent: { group: place, likelihood: { intake-leak: 1e9 } } }\n' },
    /spray-silent/,
  ],
  ['a proof that is none', { proof: '{"format": 2}' }, /format/],
])('%s is a wrong command line that names it', (_, texts: Partial<HandedIn>, expected) => {
  const paths = Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, file(`bad-${name}`, text)]),
  ) as Partial<HandedIn>
  expect(() => readHandedIn({ limits: paths.limits, causes: paths.causes, proof: paths.proof })).toThrow(
    expected,
  )
})

test('every line of a table of causes that is wrong is told, each with its place and the nearest word', () => {
  const causes = file(
    'wrong-causes.yaml',
    ['unsur: 0.5', 'evidence:', '  spray-respnse:', '    group: place', 'causes: 3'].join('\n'),
  )
  expect(() => readHandedIn({ limits: undefined, causes, proof: undefined })).toThrow(
    /wrong-causes\.yaml:1:1: .*unsur.*“unsure”[^]*wrong-causes\.yaml:3:3: .*“spray-response”[^]*wrong-causes\.yaml:5:9: /,
  )
  const beyond = file(
    'beyond.yaml',
    'evidence:\n  spray-silent:\n    group: place\n    likelihood:\n      intake-leak: 1e9\n',
  )
  expect(() => readHandedIn({ limits: undefined, causes: beyond, proof: undefined })).toThrow(
    /beyond\.yaml:5:20: .*evidence\.spray-silent\.likelihood\.intake-leak/,
  )
})

test.each([
  ['by this program', { ...proof }, 'abc', 'method.proof'],
  ['by another build', { ...proof }, 'def', 'method.proof-other'],
  ['that does not hold', { ...proof, holds: false }, 'abc', 'method.proof-fails'],
])('a proof %s is quoted as that', (_, handed, program, key) => {
  const steps = methodOf({
    captures: [],
    tests: [],
    instrument: { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 },
    limits: loadLimits(),
    proof: handed as NonNullable<Parameters<typeof methodOf>[0]['proof']>,
    program,
  })
  expect(steps.at(-1)!.says.key).toBe(key)
})
