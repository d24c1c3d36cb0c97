import { ownWords, sentence } from '../../texts/messages.ts'
import type { Arg, KeyNeeding } from '../../texts/messages.ts'
import type { Says, TestFinding } from '../findings.ts'

/** A sentence about the place of a test. */
export const saysPlace = (key: KeyNeeding<{ place: Arg }>, { place }: TestFinding): Says =>
  sentence(key, { place: ownWords(place ?? '') })
