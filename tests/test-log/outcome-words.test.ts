import { describe, expect, test } from 'vitest'
import {
  ANSWER,
  CAPPED,
  COMMANDED,
  LEAK,
  MENDED,
  OPENED,
  readOutcome,
  SWAPPED,
} from '../../src/test-log/outcome-words.ts'
import { logRows, readLog } from '../support/test-log.ts'
import { readEntries } from '../../src/test-log/log-entry.ts'
import { checkOutcome } from '../../src/test-log/check-outcomes.ts'

/** Usual words of a workshop; common practice, no source. */
test.each([
  [CAPPED, 'steady', undefined],
  [CAPPED, 'normal', 'yes'],
  [CAPPED, 'smoothed out', 'yes'],
  [CAPPED, 'no change', 'no'],
  [OPENED, 'normal', undefined],
  [OPENED, 'rose again', 'yes'],
  [COMMANDED, 'ok', 'yes'],
  [COMMANDED, 'not ok', 'no'],
  [COMMANDED, 'no change', 'no'],
] as const)('a port closed or opened, a part commanded: %#, %s', (kind, words, means) =>
  expect(readOutcome(words, kind)).toBe(means),
)

describe('whether the engine answered', () => {
  test.each([
    'now steady',
    'rpm steadied',
    '+80 rpm',
    'rpm -60',
    '750 -> 900 rpm',
    "s'arrête presque, le régime chute",
    'Aenderung',
    'faellt ab',
    'response',
    'Response',
    'yes',
    'Y',
    'changed',
    'rpm rose',
    'rpm rose 80',
    'revs up',
    'idle dropped',
    'smoothed out',
    'stumbled',
    'nearly stalled',
    'idle settles at once',
    'fixed',
    'no longer hunts',
    'stops hunting',
    'still responds',
    'ja',
    'Drehzahl steigt',
    'läuft ruhiger',
    'geht aus',
    'schwankt nicht mehr',
    'oui',
    'régime monte',
    'le régime chute',
    'se stabilise',
    'sí',
    'sube de vueltas',
    'se estabiliza',
    'bajó',
    'ya no oscila',
  ])('yes: %s', (words) => expect(readOutcome(words, ANSWER)).toBe('yes'))

  test.each([
    'rpm steady',
    'steady',
    'stable',
    'régime stable',
    'estable',
    'bleibt stabil',
    'stayed smooth',
    '0 rpm change',
    '+0 rpm',
    '750 -> 750',
    "n'a pas réagi",
    "didn't rise",
    'OK',
    'i.O.',
    'o.B.',
    'R.A.S.',
    'no response',
    'no',
    'none',
    'None',
    'no change',
    'nothing',
    'unchanged',
    'same',
    'still hunts',
    'not fixed',
    'no effect',
    'no longer responds',
    'did not change',
    "didn't change",
    'no response, still hunts',
    'still up and down',
    'no real change in idle',
    'nein',
    'keine',
    'keine Reaktion',
    'nichts',
    'keine Änderung',
    'reagiert nicht',
    'unverändert',
    'non',
    'aucun changement',
    'rien',
    'pas de réaction',
    'no cambia',
    'nada',
    'ninguno',
    'sin cambio',
    'igual',
  ])('no: %s', (words) => expect(readOutcome(words, ANSWER)).toBe('no'))

  test.each([
    'hm',
    '+10 rpm',
    '750 -> 760',
    'not sure',
    'maybe',
    'response?',
    'rose, then no change',
    'overspray',
    'vielleicht',
    'ne réagit plus',
    'peut-être',
    'quizás',
    'see note',
  ])('not read: %s', (words) => expect(readOutcome(words, ANSWER)).toBeUndefined())
})

test.each([
  ['leak', 'yes'],
  ['no leak', 'no'],
  ['yes', 'yes'],
  ['none', 'no'],
  ['smoke came out', 'yes'],
  ['no smoke', 'no'],
  ['tight', 'no'],
  ['dry', 'no'],
  ['not tight', 'yes'],
  ['undicht', 'yes'],
  ['dicht', 'no'],
  ['nicht dicht', 'yes'],
  ['fuite', 'yes'],
  ['pas de fuite', 'no'],
  ['étanche', 'no'],
  ['fuga', 'yes'],
  ['sin fuga', 'no'],
  ['wisp?', undefined],
  ['n.i.O.', 'yes'],
  ['i.O.', 'no'],
  ['no visible smoke', 'no'],
  ['bubbles', 'yes'],
])('smoke: %s is %s', (words, means) => expect(readOutcome(words, LEAK)).toBe(means))

test.each([
  ['fixed', 'fixed'],
  ['not fixed', 'not fixed'],
  ['cured', 'fixed'],
  ['same', 'not fixed'],
  ['no change', 'not fixed'],
  ['still there', 'not fixed'],
  ['came back', 'not fixed'],
  ['behoben', 'fixed'],
  ['nicht behoben', 'not fixed'],
  ['réparé', 'fixed'],
  ['arreglado', 'fixed'],
  ['no arreglado', 'not fixed'],
  ['replaced', 'done'],
  ['replaced, cured', 'fixed'],
  ['replaced, no change', 'not fixed'],
  ['nothing changed', 'not fixed'],
  ['not done', undefined],
  ['n.i.O.', 'not fixed'],
])('repair: %s is %s', (words, means) => expect(readOutcome(words, MENDED)).toBe(means))

test.each([
  ['follows', 'followed'],
  ['misfire moved', 'followed'],
  ['moved to cyl 1', 'followed'],
  ['stays', 'stayed'],
  ['stayed on 3', 'stayed'],
  ['did not move', 'stayed'],
  ['no change', 'stayed'],
  ['still on 3', 'stayed'],
  ['wandert mit', 'followed'],
  ['bleibt', 'stayed'],
  ['suit', 'followed'],
  ['reste', 'stayed'],
  ['se queda', 'stayed'],
])('swap: %s is %s', (words, means) => expect(readOutcome(words, SWAPPED)).toBe(means))

const HEAD =
  'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note'
const codes = (row: string) =>
  readEntries(logRows(`${HEAD}\n2026-03-04T09:00:00Z,${row}`)).flatMap(({ entry }) =>
    entry ? checkOutcome(entry).map((p) => p.code) : [],
  )

test.each([
  ['an outcome that is not understood', 'spray,joint,,idle,propane,,,,,,,,hm,', ['outcome-unread']],
  ['a spray that says nothing', 'spray,joint,,idle,propane,,,,,,,,,', ['row-says-nothing']],
  ['smoke that says nothing', 'smoke,joint,,,,,,,,,,,,', ['row-says-nothing']],
  ['a port capped for a spray to come', 'cap,brake hose,,,,,,,,,,,,', []],
  ['a repair whose outcome is left open', 'repair,joint,,,,,,,,,,,,', []],
  ['a note in free words', 'note,,,,,,,,,,,,hm,', []],
  ['usual words', 'spray,joint,,idle,propane,,,,,,,,rpm rose,', []],
  ['plugs without a word or figure', 'plugs,,,,cylinder 2,,,,,,,,,', ['row-says-nothing']],
])('%s is asked about, or not', (_, row, expected) => expect(codes(row)).toEqual(expected))

test('a row that is asked about is still reported', () => {
  const { tests, problems } = readLog(`${HEAD}\n2026-03-04T09:00:00Z,spray,joint,,idle,propane,,,,,,,,hm,`)
  expect(problems.map((p) => [p.code, p.severity])).toEqual([['outcome-unread', 'warn']])
  expect(tests).toHaveLength(1)
})
