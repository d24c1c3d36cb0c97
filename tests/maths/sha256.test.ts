import { expect, test } from 'vitest'
import { sha256 } from '../../src/maths/sha256.ts'

// @source FIPS 180-4 example values (SHA-256 of "abc" and of the empty message), from memory
test('published digests; parts count as one text; a text is its UTF-8', () => {
  expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  expect(sha256()).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855')
  expect(sha256('a', new Uint8Array([0x62]), 'c')).toBe(sha256('abc'))
  expect(sha256('ü')).toBe(sha256(new Uint8Array([0xc3, 0xbc])))
})
