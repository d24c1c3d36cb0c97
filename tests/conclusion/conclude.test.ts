import { describe, expect, test } from 'vitest'
import { FINDINGS } from '../../src/conclusion/findings/index.ts'
import { isTooEarly, workOf } from '../../src/conclusion/work.ts'
import { findingKinds } from '../../src/conclusion/words.ts'
import { concludeTold, TOLD, type Told } from '../support/page-one.ts'

// What may be called confirmed, in order or mended. @source common practice, no source

const all = [1, 2, 3, 4, 5, 6, 7, 8]
const every = <T>(value: T) => Object.fromEntries(all.map((n) => [n, value]))
const job = (parts: Partial<Told>): Told => ({
  name: 'a job',
  before: {},
  after: 'not captured',
  check: 'not checked',
  log: [],
  ...parts,
})
const trim = (stage: 'before' | 'after', value: number) =>
  `2026-03-04T${stage === 'after' ? 12 : 10}:00:00Z,trim,,${stage},idle,STFT1,${value},%,,,`
const work = '2026-03-04T11:00:00Z,repair,brake hose,before,,,,,,,'

test('every kind of finding has its reader under its own name', () => {
  expect(findingKinds.map((kind) => FINDINGS[kind].kind)).toEqual([...findingKinds])
})

describe('the state of the engine', () => {
  test('is in order only where every cylinder was judged and nothing stands open', () => {
    expect(concludeTold(job({})).asFound.class).toBe('in order')
    expect(concludeTold(job({ before: { 4: 'not judged' } })).asFound.class).toBe('not known')
    expect(concludeTold(job({ before: { 4: 'borderline' } })).asFound.class).toBe('suspected')
    expect(concludeTold(job({ log: [trim('before', 20)] })).asFound.class).toBe('fault')
    expect(concludeTold(job({ log: ['2026-03-04T10:00:00Z,code,,before,,P0420,,,,,'] })).asFound.class).toBe(
      'suspected',
    )
  })

  test('after work of which nothing was recorded is not known, and speaks for itself alone', () => {
    expect(concludeTold(job({ before: every('lean'), log: [work] })).now.class).toBe('not known')
    const only = concludeTold(
      job({ before: 'not captured', after: {}, log: [trim('before', 20), work, trim('after', 2)] }),
    )
    expect([only.asFound.class, only.now.class]).toEqual(['fault', 'in order'])
    expect(only.headline.map(({ says }) => says.key)).toContain('headline.not-recorded')
  })

  test('work that is not on record leaves it as found', () => {
    const { asFound, now } = concludeTold(job({ before: every('lean') }))
    expect(now).toEqual(asFound)
  })
})

describe('the repair', () => {
  const repairOf = (parts: Partial<Told>) => concludeTold(job(parts)).repair

  test('is confirmed by the cylinders recorded again, and by nothing that still opposes', () => {
    const mended = { before: every('lean' as const), after: {}, log: [trim('before', 20), work] }
    expect(repairOf(mended)).toMatchObject({ verdict: 'repair confirmed', restsOn: 'captures' })
    const trimsOut = repairOf({ ...mended, log: [...mended.log, trim('after', 19)] })
    expect([trimsOut.verdict, trimsOut.why]).toEqual(['improved, not in order', 'opposed'])
  })

  test('readings not taken again are listed and do not oppose', () => {
    const { findings, repair, now } = concludeTold(
      job({ before: every('lean'), after: {}, log: [trim('before', 20), work] }),
    )
    const again = findings.filter((f) => repair.notReadAgain.includes(f.id)).map((f) => f.kind)
    expect([repair.verdict, again, now.class, now.notReadAgain]).toEqual([
      'repair confirmed',
      ['trim'],
      'in order',
      repair.notReadAgain,
    ])
  })

  test('rests on the log only where no cylinder was captured out of order', () => {
    const log = [trim('before', 20), work, trim('after', 2)]
    expect(repairOf({ log })).toMatchObject({ verdict: 'repair confirmed', restsOn: 'log' })
    expect(repairOf({ before: every('lean'), log })).toMatchObject({
      verdict: 'not checked',
      why: 'captures-missing',
    })
  })

  test('a cylinder that is left, newly out, or uncovered is named', () => {
    const half = repairOf({ before: { 2: 'lean', 5: 'lean' }, after: { 5: 'lean' }, log: [work] })
    expect([half.verdict, half.why, half.left]).toEqual(['improved, not in order', 'part-left', [5]])
    const worse = repairOf({ before: every('lean'), after: { 3: 'open secondary' }, log: [work] })
    expect([worse.verdict, worse.left]).toEqual(['worse', [3]])
    const freed = repairOf({ before: { 3: 'open secondary' }, after: { 3: 'lean' }, log: [work] })
    expect([freed.verdict, freed.why, freed.left]).toEqual(['improved, not in order', 'uncovered', [3]])
  })

  test('a word on the log confirms nothing', () => {
    expect(repairOf({ before: every('lean'), log: [`${work}fixed`] }).verdict).toBe('not checked')
    expect(repairOf({ before: every('lean'), after: {}, log: [`${work}not fixed`] }).verdict).toBe(
      'improved, not in order',
    )
  })

  test('nothing taken before the last work speaks for the state after it', () => {
    const tests = [{ step: 'repair', at: '2026-03-04T11:00:00Z', stage: 'before' }] as never
    const record = workOf({ tests, captures: [], correction: undefined })
    expect(isTooEarly({ stage: 'after', at: '2026-03-04T10:59:00Z' }, record)).toBe(true)
    expect(isTooEarly({ stage: 'after', at: '2026-03-04T12:00:00+01:00' }, record)).toBe(false)
    expect(isTooEarly({ stage: 'before', at: '2026-03-04T10:00:00Z' }, record)).toBe(false)
  })
})

test('a cylinder at the limit does not break the pattern of its bank', () => {
  const { findings } = concludeTold(job({ before: { 1: 'lean', 3: 'lean', 5: 'lean', 7: 'borderline' } }))
  const [lean] = findings
  expect(lean).toMatchObject({ direction: 'lean', where: { scope: 'bank', bank: '1' }, unsure: [7] })
})

test('every open finding of the engine as found is named in the headline by its kind, or by one that explains it', () => {
  for (const told of TOLD) {
    const { headline, asFound } = concludeTold(told)
    const found = headline.filter(({ part }) => part === 'found')
    expect([told.name, found.length > 0]).toEqual([told.name, true])
    const calm = found.some(({ says }) => says.key === 'headline.in-order')
    expect([told.name, calm]).toEqual([told.name, asFound.class === 'in order'])
  }
})

test('the order of the rows changes nothing', () => {
  for (const told of TOLD.filter((t) => t.log.length > 1))
    expect(concludeTold({ ...told, log: told.log.toReversed() }).headline, told.name).toEqual(
      concludeTold(told).headline,
    )
})
