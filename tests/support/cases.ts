import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { verdictsIn } from './composed/predicates/predicate.ts'
import type { Result } from '../../src/records/result.ts'

/**
 * Twenty worked jobs with what a master technician expects the report to conclude (tests/fixtures/cases). Their waves are
 * formulas, not the project's model and not recordings; every job is invented.
 */
const CASES = new URL('../fixtures/cases/', import.meta.url)

export interface Expected {
  work_order: string
  why: string
  fault: boolean
  /** Verdicts that may stand as found, and after; a cylinder that is not named is in order. */
  cylinders: Record<string, readonly string[]>
  after?: Record<string, readonly string[]>
  headline?: readonly string[]
  headline_not?: readonly string[]
  page1?: readonly string[]
  page1_not?: readonly string[]
  first?: readonly string[] | null
  place?: string
  not_first?: readonly string[]
  not_kinds?: readonly string[]
  not_ruled_out?: readonly string[]
  repair: readonly string[]
  next?: readonly (string | null)[]
  next_not?: readonly (string | null)[]
  worked_only_with?: string
}

export const caseNames = (): string[] =>
  readdirSync(new URL('expected/', CASES)).map((file) => file.replace('.json', ''))

export const caseFolder = (name: string): string => fileURLToPath(new URL(`jobs/${name}`, CASES))

export const expectedOf = (name: string): Expected =>
  JSON.parse(readFileSync(new URL(`expected/${name}.json`, CASES), 'utf8')) as Expected

/** What a reader of the report gets to see. */
export interface Report {
  result: Result
  /** Words of page one. */
  page: string
  /** How the fleet counts the job: in order or not. */
  inOrder: boolean
}

const ODD: ReadonlySet<string> = new Set([
  'lean',
  'falling',
  'rich',
  'low compression',
  'external resistance',
  'open secondary',
  'misfiring',
])
const SURE: ReadonlySet<string> = new Set(['clear', 'leading'])
const CALM =
  /(every|all) (cylinders?|of them)[^.]{0,40}burns? as (it|they) should|no cylinder is clearly out of order|engine is in order|nothing (is )?wrong/i
const NOT_SAID =
  /can show (that )?it worked|(cannot|can not|do not|does not) [^.]{0,40}(is fixed|it worked)|is it fixed\?/gi
const YES = /(fixed|mended|in order now)\? ?(--|-|:)? ?yes\b/i
const WORKED = new RegExp(`it worked|has worked|is fixed|is mended|\\.\\.\\. ?yes\\b|${YES.source}`, 'i')

const like = (pattern: string) => new RegExp(pattern, 'i')

/** Everything in which a report falls short of what was expected, in a few words each. */
export function amiss(e: Expected, { result, page: raw, inOrder }: Report): string[] {
  const page = raw.replace(NOT_SAID, '...')
  const { conclusion } = result
  const headline = conclusion!.headline.text
  const [first] = result.causes
  const standing = conclusion!.faults[0]?.standing ?? ''
  return [
    ...verdictsAmiss(e.cylinders, verdictsIn(result, 'before'), 'as found'),
    ...verdictsAmiss(e.after ?? {}, verdictsIn(result, 'after'), 'after'),
    ...(e.headline ?? [])
      .filter((p) => !like(p).test(headline))
      .map((p) => `headline "${headline}" lacks /${p}/`),
    ...(e.headline_not ?? [])
      .filter((p) => like(p).test(headline))
      .map((p) => `headline "${headline}" has /${p}/`),
    ...causeAmiss(e, first, standing),
    ...(e.repair.includes(result.repair.verdict)
      ? []
      : [`repair "${result.repair.verdict}", expected ${e.repair.join('/')}`]),
    ...(e.page1 ?? [])
      .filter(
        (p) => !(like(p).test(p.includes('worked') ? page : raw) || (p.includes('worked') && YES.test(raw))),
      )
      .map((p) => `page one lacks /${p}/`),
    ...(e.fault && CALM.test(page) ? [`page one: "${CALM.exec(page)![0]}"`] : []),
    ...(WORKED.test(page) && !e.repair.some((v) => v === 'repair confirmed' || v === 'improved, not in order')
      ? [`page one: "${WORKED.exec(page)![0]}"`]
      : []),
    ...(e.worked_only_with !== undefined && !like(e.worked_only_with).test(raw)
      ? [`page one lacks /${e.worked_only_with}/`]
      : []),
    ...(e.page1_not ?? []).flatMap((p) => {
      const found = like(p).exec(page)?.[0].trim()
      return found && !WORKED.test(found) ? [`page one has "${found}"`] : []
    }),
    ...nextAmiss(e, result),
    ...(e.not_ruled_out ?? [])
      .filter((p) => result.ledger.ruled_out.some(({ name }) => like(p).test(name.text)))
      .map((p) => `"ruled out" lists /${p}/`),
    ...(e.fault && inOrder ? ['the fleet counts it as in order'] : []),
  ]
}

function verdictsAmiss(
  want: Expected['cylinders'],
  got: ReadonlyMap<number, string>,
  when: string,
): string[] {
  return [
    ...Object.entries(want).flatMap(([c, words]) => {
      const verdict = got.get(Number(c)) ?? 'none'
      return words.includes(verdict) ? [] : [`cylinder ${c} ${when}: ${verdict}, expected ${words.join('/')}`]
    }),
    ...[...got].flatMap(([c, verdict]) =>
      want[c] === undefined && ODD.has(verdict)
        ? [`cylinder ${c} ${when}: ${verdict}, which is in order`]
        : [],
    ),
  ]
}

function causeAmiss(e: Expected, first: Result['causes'][number] | undefined, standing: string): string[] {
  const cause =
    e.first != null && !e.first.includes(first?.id ?? '')
      ? [`first cause ${first?.id} (${standing}), expected ${e.first.join('/')}`]
      : e.not_first?.includes(first?.id ?? '')
        ? [`first cause ${first?.id} (${standing}) must not be first`]
        : e.place !== undefined && !new RegExp(e.place).test(String(first?.place))
          ? [`first cause ${first?.id} at ${first?.place}, expected /${e.place}/`]
          : []
  return [
    ...cause,
    ...(e.not_kinds?.includes(standing) && SURE.has(standing)
      ? [`standing ${standing} claims too much`]
      : []),
  ]
}

function nextAmiss(e: Expected, { next_test: next }: Result): string[] {
  const id = next?.id ?? null
  const leads = new Set((next?.outcomes ?? []).map((o) => o.says.args['cause']))
  return [
    ...(e.next && !e.next.includes(id) ? [`next ${id}, expected ${e.next.join('/')}`] : []),
    ...(leads.size === 1 && !leads.has(undefined)
      ? [`next ${id}: whatever comes out, the same cause stays first`]
      : []),
    ...(e.next_not?.includes(id) ? [`next ${id} makes no sense here`] : []),
  ]
}
