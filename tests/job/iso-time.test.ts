import { expect, test } from 'vitest'
import { isDay, isMoment } from '../../src/job/iso-time.ts'

// Leap years by the Gregorian rule (ISO 8601): 2000 is one, 1900 and 2100 are not.
test.each([
  ['2024-02-29', true],
  ['2023-02-29', false],
  ['2000-02-29', true],
  ['1900-02-29', false],
  ['2026-04-30', true],
  ['2026-04-31', false],
  ['2026-13-01', false],
  ['2026-00-10', false],
  ['2026-01-00', false],
  ['2026-1-1', false],
  ['', false],
])('day %s: %s', (text, is) => expect(isDay(text)).toBe(is))

test.each([
  ['2026-03-04T09:12:00-05:00', true],
  ['2026-03-04T09:12', true],
  ['2026-03-04T09:12:00.25Z', true],
  ['2026-03-04 09:12:00', false],
  ['2026-03-04T24:00', false],
  ['2026-03-04T09:60', false],
  ['2026-02-30T09:00', false],
  ['04.03.2026 09:12', false],
  ['2026-03-04', false],
])('moment %s: %s', (text, is) => expect(isMoment(text)).toBe(is))
