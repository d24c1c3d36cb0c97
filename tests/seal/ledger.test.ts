import { expect, test } from 'vitest'
import { compareWithLedger, LEDGER_START, ledgerLine, lineDigest, walkLedger } from '../../src/seal/ledger.ts'
import { sha256 } from '../../src/maths/sha256.ts'
import type { Signer } from '../../src/seal/signing-key.ts'
import { shop, stranger } from './keys.ts'

function ledgerOf(workOrders: readonly string[], signer?: Signer): string[] {
  const lines: string[] = []
  let last = { n: 0, digest: LEDGER_START }
  for (const [i, work_order] of workOrders.entries()) {
    const line = ledgerLine(last, { work_order, manifest: sha256(`${work_order} ${i}`) }, signer)
    lines.push(line)
    last = { n: last.n + 1, digest: lineDigest(line) }
  }
  return lines
}
const joined = (lines: readonly string[]) => lines.map((line) => `${line}\n`).join('')
const codes = (text: string, how: { publicKey?: string; head?: string } = {}) =>
  walkLedger(text, 'ledger', how).findings.map((f) => f.code)
const five = ledgerOf(['A', 'B', 'C', 'B', 'D'])

test('a ledger holds from its first line to its last', () => {
  expect(codes('')).toEqual([])
  expect(codes(joined(five), { head: lineDigest(five.at(-1)!) })).toEqual([])
  expect(walkLedger(joined(five), 'ledger').newest.get('B')).toBe(sha256('B 3'))
})

test('every line left out but the last, every pair swapped and every line doubled breaks the chain', () => {
  five.slice(0, -1).forEach((_, i) => expect(codes(joined(five.toSpliced(i, 1)))).toEqual(['ledger-chain']))
  five
    .slice(0, -1)
    .forEach((line, i) =>
      expect(codes(joined(five.toSpliced(i, 2, five[i + 1]!, line)))).toEqual(['ledger-chain']),
    )
  five.forEach((line, i) => expect(codes(joined(five.toSpliced(i, 0, line)))).toEqual(['ledger-chain']))
})

test('lines off the end show against a head noted earlier', () => {
  const cut = joined(five.slice(0, 3))
  expect(codes(cut)).toEqual([])
  expect(codes(cut, { head: lineDigest(five[4]!) })).toEqual(['ledger-head'])
  expect(codes(joined(five), { head: lineDigest(five[2]!) })).toEqual([])
})

test.each([
  ['unsigned', undefined],
  ['signed', shop],
] as const)('every bit of %s lines is covered, the last line by its head', (_, signer) => {
  const lines = ledgerOf(['A', 'B', 'C'], signer)
  const text = Buffer.from(joined(lines))
  const head = lineDigest(lines[2]!)
  const quiet: number[] = []
  for (let at = 0; at < text.length; at++) {
    const changed = Buffer.from(text)
    changed[at]! ^= 1
    if (codes(changed.toString('utf8'), { head }).length === 0) quiet.push(at)
  }
  expect(quiet).toEqual([])
})

test("a ledger written anew holds by itself; under the shop's key it does not", () => {
  const forged = joined(ledgerOf(['A', 'C'], stranger))
  expect(codes(forged)).toEqual([])
  expect(codes(forged, { publicKey: shop.publicKey })).toEqual(['other-key', 'other-key'])
  expect(codes(joined(five), { publicKey: shop.publicKey })).toHaveLength(5)
})

test('a line without its end is said to be torn, and does not count', () => {
  const torn = joined(five.slice(0, 2)) + five[2]!.slice(0, 30)
  expect(codes(torn)).toEqual(['ledger-torn'])
  expect(walkLedger(torn, 'ledger').n).toBe(2)
})

test('reports that are gone, replaced or were never entered', () => {
  const standing = new Map([
    ['A', sha256('A 0')],
    ['B', sha256('B 1')],
    ['C', sha256('C 2')],
    ['E', sha256('E')],
  ])
  expect(
    compareWithLedger(walkLedger(joined(five), 'ledger'), standing).map((f) => [f.file, f.code, f.severity]),
  ).toEqual([
    ['B', 'ledger-replaced', 'broken'],
    ['D', 'ledger-deleted', 'broken'],
    ['E', 'ledger-unlisted', 'note'],
  ])
})
