import { expect, test } from 'vitest'
import { fingerprintOf, isSignatureOf, publicKeyOf, signerOf } from '../../src/seal/signing-key.ts'
import { otherKind, RFC_EMPTY_SIGNATURE, RFC_PEM, RFC_PUBLIC, shop, stranger } from './keys.ts'

test('key and signature are those published (RFC 8032, 7.1, test 1: the empty message)', () => {
  expect(shop.publicKey).toBe(RFC_PUBLIC)
  expect(shop.sign('')).toBe(RFC_EMPTY_SIGNATURE)
  expect(publicKeyOf(RFC_PEM)).toBe(RFC_PUBLIC)
})

test('a signature holds for its text and its key alone', () => {
  const signature = shop.sign('words')
  expect(isSignatureOf('words', signature, shop.publicKey)).toBe(true)
  expect(isSignatureOf('wordz', signature, shop.publicKey)).toBe(false)
  expect(isSignatureOf('words', signature, stranger.publicKey)).toBe(false)
  expect(isSignatureOf('words', signature.toUpperCase(), shop.publicKey)).toBe(false)
  expect(isSignatureOf('words', signature, 'zz')).toBe(false)
})

test('secrets are the same for one purpose, differ by purpose and by key, and are not the key', () => {
  expect(shop.secret('a')).toBe(signerOf(RFC_PEM).secret('a'))
  expect(new Set([shop.secret('a'), shop.secret('b'), stranger.secret('a')]).size).toBe(3)
  expect(shop.secret('a')).toMatch(/^[0-9a-f]{32}$/)
})

test('a key of another kind, or no key, is refused', () => {
  expect(() => signerOf(otherKind())).toThrow(/ed25519/)
  expect(() => signerOf('no key')).toThrow()
})

test('a fingerprint has 64 hex digits', () => expect(fingerprintOf(RFC_PUBLIC)).toMatch(/^[0-9a-f]{64}$/))
