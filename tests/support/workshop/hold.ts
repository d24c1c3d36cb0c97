import type { Result } from '../../../src/records/result.ts'
import { nextStep } from '../composed/predicates/next-step.ts'
import { noReassurance } from '../composed/predicates/no-reassurance.ts'
import { ODD, verdictsIn } from '../composed/predicates/predicate.ts'
import type { Expected } from './job.ts'

/** What of a report is not as the technician expects, each in a few words. */
export function amiss(result: Result, e: Expected): string[] {
  const c = result.conclusion!
  const seen = { result, cylindersCsv: '', testsCsv: '', page: undefined, truth: undefined }
  const out = [...nextStep.breaches(seen), ...noReassurance.breaches(seen)]
  const among = (what: string, is: unknown, may: readonly unknown[] | undefined) => {
    if (may && !may.includes(is))
      out.push(`${what} is ${String(is)}, expected ${may.map(String).join(' or ')}`)
  }
  const page = result.summary.map(({ text }) => text).join(' ')
  among('as found', c.as_found.class, e.found)
  among('now', c.now.class, e.now)
  among('repair', c.repair.verdict, e.repair)
  among('why', c.repair.why, e.why)
  for (const [stage, want] of [
    ['before', e.before ?? {}],
    ['after', e.after ?? {}],
  ] as const) {
    const got = verdictsIn(result, stage)
    for (const [cylinder, may] of Object.entries(want))
      among(`cylinder ${cylinder} ${stage}`, got.get(Number(cylinder)), may)
    for (const [cylinder, verdict] of got)
      if (ODD.has(verdict) && !(cylinder in want)) out.push(`cylinder ${cylinder} ${stage} is ${verdict}`)
  }
  for (const want of e.faults ?? []) {
    const one = c.faults.find(
      (f) =>
        want.cause.includes(f.cause) &&
        (want.cylinders ?? []).every((x) => f.cylinders.includes(x)) &&
        (want.place?.test(f.place ?? '') ?? true),
    )
    if (!one)
      out.push(
        `no fault ${want.cause.join('/')} ${want.cylinders?.join(', ') ?? want.place?.source ?? ''}; faults: ${c.faults.map((f) => `${f.cause} ${f.place} [${f.cylinders.join()}] ${f.standing} ${f.status}`).join('; ')}`,
      )
    else among(`status of ${one.cause}`, one.status, want.status)
  }
  const first = c.faults[0]
  if (first && e.notStanding?.includes(first.standing)) out.push(`${first.cause} is ${first.standing}`)
  if (e.notFirst?.includes(result.causes[0]?.id ?? '')) out.push(`first cause is ${result.causes[0]!.id}`)
  if (e.left && e.left.join() !== c.repair.left.join())
    out.push(`left: ${c.repair.left.join()}, expected ${e.left.join()}`)
  const text = (where: string, is: string, has: readonly RegExp[] = [], not: readonly RegExp[] = []) => {
    for (const p of has) if (!p.test(is)) out.push(`${where} lacks ${p.source}: "${is}"`)
    for (const p of not) if (p.test(is)) out.push(`${where} has "${p.exec(is)![0]}": "${is}"`)
  }
  text('headline', c.headline.text, e.headline, e.headlineNot)
  text('page one', page, e.page, e.pageNot)
  among('next', c.next.id, e.next)
  if (e.nextNot?.includes(c.next.id)) out.push(`next is ${c.next.id}`)
  for (const what of ['cause', 'correction'] as const)
    among(`stated ${what}`, c.stated.find((s) => s.what === what)?.stands, e.stated?.[what])
  for (const id of e.notRuledOut ?? [])
    if (result.ledger.ruled_out.some((r) => r.id === id)) out.push(`${id} is ruled out`)
  return out
}
