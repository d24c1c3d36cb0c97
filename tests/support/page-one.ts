import { statement } from '../../src/records/parts/statement.ts'
import { summaryOf } from '../../src/records/parts/summary.ts'
import type { Result } from '../../src/records/result.ts'
import { composeSections } from '../../src/report/compose-sections.ts'
import { customerPage } from '../../src/report/pages/customer.ts'
import { openTypeface } from '../../src/report/text/typeface.ts'
import type { Texts } from '../../src/texts/messages.ts'
import { repairVerdicts, verdictNames, type VerdictName } from '../../src/verdicts/verdict-names.ts'
import { openPdf, pageText, wordsOf } from './read-pdf.ts'
import { sampleJob } from './sample-result.ts'

/** What page one can have to tell: verdicts on cylinders, how the repair came out, what is to be done next, how the tests went. */
export interface Told {
  name: string
  /** Verdict of each cylinder as found; the others are level. */
  verdicts: Readonly<Record<number, VerdictName>>
  pattern: string
  repair: (typeof repairVerdicts)[number] | 'not comparable' | 'nothing done'
  next: Result['next_test'] | 'none'
  sprays: 'none' | 'one place' | 'two places' | 'torn'
}

const CYLINDERS = 8
const ODD = [1, 3, 5, 7]
const FAULTS = verdictNames.filter((name) => !['level', 'borderline', 'not judged'].includes(name))
const all = Array.from({ length: CYLINDERS }, (_, i) => i + 1)
const of = (cylinders: readonly number[], verdict: (n: number) => VerdictName) =>
  Object.fromEntries(cylinders.map((n) => [n, verdict(n)]))

/** Each fault on one cylinder, on some, on a bank, on all; faults that differ; none; too near the limit, not judged, and both beside a fault. */
const FOUND: readonly Pick<Told, 'name' | 'verdicts' | 'pattern'>[] = [
  ...FAULTS.flatMap((fault) => [
    { name: `${fault}, one`, verdicts: of([3], () => fault), pattern: 'cylinder 3' },
    { name: `${fault}, some`, verdicts: of([2, 3, 4, 6, 8], () => fault), pattern: 'mixed' },
    { name: `${fault}, bank`, verdicts: of(ODD, () => fault), pattern: 'bank 1' },
    { name: `${fault}, all`, verdicts: of(all, () => fault), pattern: 'all' },
  ]),
  {
    name: 'faults that differ, some',
    verdicts: { 2: 'lean', 5: 'external resistance', 6: 'misfiring' },
    pattern: 'mixed',
  },
  {
    name: 'faults that differ, bank',
    verdicts: of(ODD, (n) => (n < 4 ? 'lean' : 'misfiring')),
    pattern: 'bank 1',
  },
  {
    name: 'faults that differ, all',
    verdicts: of(all, (n) => (n < 4 ? 'rich' : 'open secondary')),
    pattern: 'all',
  },
  { name: 'none', verdicts: {}, pattern: 'none' },
  { name: 'near the limit, one', verdicts: { 4: 'borderline' }, pattern: 'none' },
  {
    name: 'near the limit, some',
    verdicts: { 4: 'borderline', 5: 'borderline', 8: 'borderline' },
    pattern: 'none',
  },
  { name: 'not judged, all', verdicts: of(all, () => 'not judged'), pattern: 'none' },
  {
    name: 'a fault beside what is open',
    verdicts: { 1: 'lean', 2: 'borderline', 3: 'borderline', 6: 'not judged', 7: 'not judged' },
    pattern: 'cylinder 1',
  },
]

const REPAIRS = [...repairVerdicts, 'not comparable', 'nothing done'] as const

type Next = NonNullable<Result['next_test']>
const nextTest = (id: string, place: string | null, minutes: number): Next => ({
  id,
  place,
  minutes,
  gain_bits: null,
  cautions: [],
  says: { key: `next-test.${id}`, args: {}, text: '' },
  outcomes: [],
})
const NEXT: readonly Told['next'][] = [
  'none',
  nextTest('smoke', null, 20),
  nextTest('repair-and-capture', 'hose', 95),
  nextTest('capture-after', null, 15),
]
const SPRAYS = ['none', 'one place', 'two places', 'torn'] as const

/** Every kind of finding with every way a repair comes out; what is next, and how sprays went, take turns. */
export const TOLD: readonly Told[] = FOUND.flatMap((found, i) =>
  REPAIRS.map((repair, k) => ({
    ...found,
    repair,
    name: `${found.name}; ${repair}`,
    next: NEXT[(i + k) % NEXT.length]!,
    sprays: SPRAYS[(i + 2 * k + 1) % SPRAYS.length]!,
  })),
)

/** A result that tells this, its summary made by the program itself. */
export function resultTelling(told: Told, texts: Texts): Result {
  const after = !['not checked', 'nothing done'].includes(told.repair)
  const { result } = sampleJob({ cylinders: CYLINDERS, after, tests: 9 })
  const cylinders = result.cylinders.map((c) => ({
    ...c,
    verdict: c.stage === 'before' ? (told.verdicts[c.cylinder] ?? ('level' as const)) : ('level' as const),
  }))
  const odd = Object.entries(told.verdicts)
    .filter(([, verdict]) => FAULTS.includes(verdict))
    .map(([n]) => Number(n))
  const [spray, ...others] = result.tests.filter(({ step }) => step === 'spray')
  const places = {
    none: [],
    'one place': ['brake hose'],
    'two places': ['brake hose', 'joint of cylinder 3'],
    torn: ['brake hose'],
  }[told.sprays]
  const sprays = places.map((place, i) => ({
    ...(others[i] ?? spray!),
    place,
    stage: 'before' as const,
    finding: 'response' as const,
    meaning: told.sprays === 'torn' ? [{ key: 'tests.isolation.contradiction', args: {}, text: '' }] : [],
  }))
  const verdict =
    told.repair === 'not comparable' || told.repair === 'nothing done'
      ? ('not checked' as const)
      : told.repair
  const key =
    told.repair === 'not comparable'
      ? 'repair.not-comparable'
      : told.repair === 'nothing done'
        ? 'repair.none'
        : `repair.${verdict}`
  const changed: Result = {
    ...result,
    cylinders,
    tests: [...result.tests.filter(({ step }) => step !== 'spray'), ...sprays],
    job: { ...result.job, correction: told.repair === 'nothing done' ? null : result.job.correction },
    engine: { ...result.engine, before: { ...result.engine.before!, pattern: told.pattern, cylinders: odd } },
    repair: {
      ...result.repair,
      verdict,
      says: { key, args: {}, text: '' },
      work: told.repair === 'nothing done' ? [] : result.repair.work,
    },
    next_test: told.next === 'none' ? null : told.next,
    language: texts.language,
  }
  return { ...changed, summary: summaryOf(changed, texts).map((says) => statement(texts, says)) }
}

/** Page one alone, as it is printed: its paragraphs in reading order, and all its words. */
export async function pageOneOf(
  result: Result,
  texts: Texts,
): Promise<{ paragraphs: string[]; words: string }> {
  const section = customerPage({ result, texts, charts: [], photos: new Map(), missingSigns: [] })
  const bytes = await composeSections([section], {
    typeface: await openTypeface(),
    paper: 'A4',
    attachments: [],
    heads: { left: '', right: '', footLeft: '', pageOf: () => '' },
    facts: {
      title: 't',
      author: 'a',
      subject: 's',
      language: texts.language,
      when: '2026-03-05T00:00:00Z',
      tool: 't',
      producer: 'p',
      inputsSha256: '0'.repeat(64),
    },
  })
  const doc = await openPdf(bytes)
  return { paragraphs: await wordsOf(doc, 1, 'P'), words: await pageText(doc, 1) }
}
