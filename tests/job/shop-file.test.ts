import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { crc32 } from 'node:zlib'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { shopJsonSchema, shopJsonSchemaText } from '../../src/job/json-schema.ts'
import { readShopFile } from '../../src/job/shop-file.ts'
import { JobError } from '../../src/problems/problem.ts'
import { samplePng } from '../support/sample-photo.ts'

const SHOP = 'format: 1\nname: Example Garage (invented)\nphone: 000 555 0100\nlogo: logo.png\n'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'shop-'))
  writeFileSync(join(folder, 'logo.png'), samplePng(30, 10))
  writeFileSync(join(folder, 'logo.svg'), '<svg viewBox="0 0 4 1"><rect width="4" height="1"/></svg>')
  writeFileSync(join(folder, 'text.svg'), '<svg viewBox="0 0 4 1"><text>A</text></svg>')
  writeFileSync(join(folder, 'photo.gif'), 'GIF89a')
  const huge = Buffer.from(samplePng(30, 10)) // a small file whose head announces 400 MB of pixels
  huge.writeUInt32BE(9999, 16)
  huge.writeUInt32BE(9999, 20)
  huge.writeUInt32BE(crc32(huge.subarray(12, 29)), 29)
  writeFileSync(join(folder, 'huge.png'), huge)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const read = (text: string) => {
  writeFileSync(join(folder, 'shop.yaml'), text)
  return readShopFile(join(folder, 'shop.yaml'))
}
async function codes(text: string): Promise<string[]> {
  try {
    await read(text)
    return []
  } catch (error) {
    return (error as JobError).problems.map((p) => `${p.code}:${p.line ?? ''}`)
  }
}

test('language and paper of its reports', async () => {
  expect(await read(`${SHOP}language: de\npage: LETTER\n`)).toMatchObject({ language: 'de', page: 'LETTER' })
  expect(await codes(`${SHOP}language: nl\n`)).toEqual(['unknown-word:5'])
})

test('particulars, logo and the files that went in', async () => {
  const shop = await read(SHOP)
  expect(shop.shop).toEqual({ name: 'Example Garage (invented)', phone: '000 555 0100' })
  expect(shop.logo).toHaveLength(samplePng(30, 10).length)
  expect(shop.files.map(({ what, file, bytes }) => [what, file, bytes])).toEqual([
    ['shop', 'shop.yaml', SHOP.length],
    ['logo', 'logo.png', samplePng(30, 10).length],
  ])
  for (const { sha256 } of shop.files) expect(sha256).toMatch(/^[0-9a-f]{64}$/)
})

describe('what is wrong is named with its line', () => {
  test.each([
    ['an unknown key', `${SHOP}fax: 1\n`, ['unknown-key:5']],
    ['no format', SHOP.replace('format: 1\n', ''), ['missing-key:1']],
    ['a plain SVG is fine', SHOP.replace('.png', '.svg'), []],
    ['an SVG with text', SHOP.replace('logo.png', 'text.svg'), ['logo-unsupported:4']],
    ['another format', SHOP.replace('logo.png', 'photo.gif'), ['logo-unsupported:4']],
    ['a logo of 9999 x 9999 pixels', SHOP.replace('logo.png', 'huge.png'), ['picture-too-large:4']],
    ['no such logo', SHOP.replace('logo.png', 'none.png'), ['unreadable-file:']],
    ['no name and no logo is fine', 'format: 1\n', []],
  ])('%s', async (_, text, expected) => expect(await codes(text)).toEqual(expected))
})

test('the published schema is what the code gives, and judges alike', () => {
  expect(readFileSync(new URL('../../templates/shop.schema.json', import.meta.url), 'utf8')).toBe(
    shopJsonSchemaText(),
  )
  const validate = new Ajv2020({ strict: true }).compile(shopJsonSchema())
  expect(validate(parse(SHOP))).toBe(true)
  expect(validate(parse(`${SHOP}fax: 1\n`))).toBe(false)
})
