import type { Says } from '../../test-log/findings.ts'
import { listWords } from '../../texts/list-words.ts'
import type { Texts } from '../../texts/messages.ts'
import type { Result } from '../result.ts'

type Found = Omit<Result, 'summary'>

/** Page one in plain words: what was looked at, what was found, whether it is mended, what stays open. Each from a field of the result. */
export function summaryOf(result: Found, texts: Texts): Says[] {
  const numbers = (cylinders: readonly number[]) => listWords(texts, cylinders.map(String))
  return [
    looked(result),
    found(result, numbers),
    ...tests(result),
    repaired(result),
    ...open(result, numbers),
  ]
}

type Numbers = (cylinders: readonly number[]) => string

function looked({ captures, job }: Found): Says {
  const events = captures.reduce((sum, c) => sum + c.events - c.partial, 0)
  const { cylinders } = job.engine
  return cylinders === 1
    ? { key: 'summary.looked-one', args: { events } }
    : { key: 'summary.looked', args: { events, cylinders } }
}

/** What the first captures show; those after the repair where none was taken before. */
function found({ engine, cylinders }: Found, numbers: Numbers): Says {
  const stage = engine.before ? 'before' : 'after'
  const { pattern, cylinders: odd } = engine[stage] ?? { pattern: 'none', cylinders: [] as number[] }
  const verdictOf = (n: number) =>
    cylinders.find((c) => c.stage === stage && c.cylinder === n && c.verdict !== 'not judged')?.verdict
  const verdicts = new Set(odd.map(verdictOf))
  const args = { cylinders: numbers(odd) }
  if (odd.length === 0) {
    const judged = cylinders.some((c) => c.stage === stage && c.verdict !== 'not judged')
    return { key: judged ? 'summary.none' : 'summary.not-judged', args: {} }
  }
  const what = verdicts.size === 1 ? [...verdicts][0]!.replaceAll(' ', '-') : 'several'
  const where =
    pattern === 'all' ? 'all' : pattern.startsWith('bank') ? 'bank' : odd.length === 1 ? 'one' : 'some'
  return { key: `summary.${what}-${where}`, args: { ...args, bank: pattern.replace('bank ', '') } }
}

/** A finding of the log's reader: sprays of one place in one state of the caps that disagree. */
const TORN = 'tests.isolation.contradiction'

/** Places that answered to spray; those that did so once and not another time apart. */
function tests({ tests }: Found): Says[] {
  const sprayed = tests.filter((t) => t.stage === 'before' && t.step === 'spray' && t.place)
  const torn = new Set(sprayed.filter((t) => t.meaning.some((m) => m.key === TORN)).map((t) => t.place!))
  const places = [...new Set(sprayed.filter((t) => t.finding === 'response').map((t) => t.place!))].filter(
    (place) => !torn.has(place),
  )
  return [
    ...(places.length ? [{ key: 'summary.responses', args: { places: places.join('; ') } }] : []),
    ...(torn.size ? [{ key: 'summary.responses-torn', args: { places: [...torn].join('; ') } }] : []),
  ]
}

function repaired({ repair }: Found): Says {
  if (repair.says.key === 'repair.not-comparable') return { key: 'summary.repair.not-comparable', args: {} }
  if (repair.says.key === 'repair.none') return { key: 'summary.repair.none', args: {} }
  return { key: `summary.repair.${repair.verdict.replaceAll(/[ ,]+/g, '-')}`, args: {} }
}

/** What could not be said, so that nobody takes silence for a clean bill. */
function open({ cylinders, engine }: Found, numbers: Numbers): Says[] {
  const stage = engine.after ? 'after' : 'before'
  const judgedHere = cylinders.filter((c) => c.stage === stage)
  const names = (verdict: string) =>
    [...new Set(judgedHere.filter((c) => c.verdict === verdict).map((c) => c.cylinder))].filter(
      (n) => !judgedHere.some((c) => c.cylinder === n && c.verdict !== verdict),
    )
  const says: Says[] = []
  for (const verdict of ['borderline', 'not judged'] as const) {
    const list = names(verdict)
    const key = `summary.open.${verdict.replace(' ', '-')}`
    if (list.length)
      says.push({ key: list.length === 1 ? `${key}-one` : key, args: { cylinders: numbers(list) } })
  }
  return says
}
