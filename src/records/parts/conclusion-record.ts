import type { Conclusion, EngineState } from '../../conclusion/conclusion.ts'
import type { NamedFinding } from '../../conclusion/finding.ts'
import type { Says } from '../../test-log/findings.ts'
import { say } from '../../texts/say.ts'
import type { Texts } from '../../texts/messages.ts'
import { toDigits } from '../round.ts'
import type { ConclusionRecord } from '../result.ts'
import { cylinderMark, testMark } from './marks.ts'
import { statement } from './statement.ts'

/** The conclusion in the words of the records. @param marks  evidence marks of the captures, by file */
export function conclusionRecord(
  texts: Texts,
  it: Conclusion,
  marks: ReadonlyMap<string, string>,
): ConclusionRecord {
  const parts = it.headline.map(({ part, says }) => ({ part, says: statement(texts, says) }))
  return {
    findings: it.findings.map((f) => findingRecord(texts, f, marks)),
    as_found: stateRecord(texts, it.asFound),
    now: stateRecord(texts, it.now),
    faults: it.faults.map((f) => ({
      id: f.id,
      cause: f.cause,
      place: f.place ?? null,
      cylinders: [...f.cylinders],
      standing: f.standing,
      share: toDigits(f.share, 4),
      share_range: [toDigits(f.shareRange[0], 4), toDigits(f.shareRange[1], 4)],
      keeps_first: toDigits(f.keepsFirst, 4),
      others: f.others.map((o) => ({ cause: o.cause, place: o.place ?? null, share: toDigits(o.share, 4) })),
      explains: [...f.explains],
      against: [...f.against],
      status: f.status,
      says: statement(texts, f.says),
    })),
    stated: it.stated.map(({ what, words, stand }) => ({ what, words, stands: stand })),
    repair: {
      verdict: it.repair.verdict,
      why: it.repair.why,
      reason: statement(texts, it.repair.reason),
      remarks: it.repair.remarks.map((says) => statement(texts, says)),
      rests_on: it.repair.restsOn,
      supports: [...it.repair.supports],
      opposes: [...it.repair.opposes],
      not_read_again: [...it.repair.notReadAgain],
      left: [...it.repair.left],
    },
    next: {
      kind: it.next.kind,
      id: it.next.id ?? null,
      place: it.next.place ?? null,
      minutes: it.next.minutes ?? null,
    },
    headline: { parts, text: parts.map(({ says }) => says.text).join(say(texts, 'list.semicolon')) },
    page_one: pageOneRecord(texts, it.pageOne),
  }
}

function pageOneRecord(texts: Texts, page: Conclusion['pageOne']): ConclusionRecord['page_one'] {
  const said = (passage: readonly Says[]) => passage.map((says) => statement(texts, says))
  return {
    found: said(page.found),
    sure: said(page.sure),
    mended: said(page.mended),
    unchecked: said(page.unchecked),
    driving: said(page.driving),
    next: said(page.next),
  }
}

/** Every sentence of page one, in its order. */
export const summaryOf = ({ page_one: page }: ConclusionRecord): ConclusionRecord['page_one']['found'] => [
  ...page.found,
  ...page.mended,
  ...page.sure,
  ...page.unchecked,
  ...page.driving,
  ...page.next,
]

const stateRecord = (texts: Texts, state: EngineState): ConclusionRecord['now'] => ({
  class: state.class,
  findings: [...state.findings],
  not_read_again: [...state.notReadAgain],
  says: state.says.map((says) => statement(texts, says)),
})

function findingRecord(
  texts: Texts,
  f: NamedFinding,
  marks: ReadonlyMap<string, string>,
): ConclusionRecord['findings'][number] {
  const { size, where } = f
  return {
    id: f.id,
    state: f.state,
    kind: f.kind,
    order: f.order,
    where: {
      scope: where.scope,
      bank: where.bank ?? null,
      cylinders: [...where.cylinders],
      place: where.place ?? null,
    },
    unsure: [...f.unsure],
    condition: f.condition ?? null,
    reading: f.reading ?? null,
    direction: f.direction,
    size: size
      ? {
          value: toDigits(size.value),
          low: toDigits(size.low),
          high: toDigits(size.high),
          unit: size.unit,
          limit_low: size.limitLow === undefined ? null : toDigits(size.limitLow),
          limit_high: size.limitHigh === undefined ? null : toDigits(size.limitHigh),
        }
      : null,
    sure: f.sure,
    why: f.why ? statement(texts, f.why) : null,
    marks: [
      ...f.captures.flatMap((file) =>
        where.cylinders.length
          ? where.cylinders.map((c) => cylinderMark(marks.get(file)!, c))
          : [marks.get(file)!],
      ),
      ...f.tests.map(testMark),
    ],
    explained_by: f.explainedBy ?? null,
  }
}
