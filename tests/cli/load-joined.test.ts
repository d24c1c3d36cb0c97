import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { joinedIn } from '../../src/cli/load-joined.ts'

let folder = ''
const write = (name: string, text: string) => writeFileSync(join(folder, name), text)

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-joined-'))
  write('one.cjs', 'exports.name = () => "one"; const two = require("./two.cjs"); exports.both = () => exports.name() + two.after()')
  write('two.cjs', 'const one = require("./one.cjs"); exports.after = () => `, then two after ${one.name()}`')
  const first = joinedIn(folder)
  expect((first.load('one.cjs') as { both: () => string }).both()).toBe('one, then two after one')
  expect(first.ranFromCode('one.cjs')).toBe(false)
  first.keepCode()
})
afterEach(() => rmSync(folder, { recursive: true }))

const both = (files: ReturnType<typeof joinedIn>) => (files.load('one.cjs') as { both: () => string }).both()

describe('kept code', () => {
  test('is run in place of the text it was compiled from', () => {
    const files = joinedIn(folder)
    expect(both(files)).toBe('one, then two after one')
    expect([files.ranFromCode('one.cjs'), files.ranFromCode('two.cjs')]).toEqual([true, true])
  })

  test('is left alone where the text is another of the same length', () => {
    write('two.cjs', readFileSync(join(folder, 'two.cjs'), 'utf8').replace('then two', 'then 2nd'))
    const files = joinedIn(folder)
    expect(both(files)).toBe('one, then 2nd after one')
    expect([files.ranFromCode('one.cjs'), files.ranFromCode('two.cjs')]).toEqual([true, false])
  })

  test.each([0, 40, 200])('is left alone where byte %i of it has changed', (at) => {
    const code = readFileSync(join(folder, 'one.cjs.code'))
    code[at]! ^= 1
    writeFileSync(join(folder, 'one.cjs.code'), code)
    const files = joinedIn(folder)
    expect(both(files)).toBe('one, then two after one')
    expect(files.ranFromCode('one.cjs')).toBe(false)
  })
})
