import { VERDICT_WORDS } from './verdict-words.ts'
import { sentence } from '../texts/messages.ts'
import type { Says } from '../test-log/findings.ts'
import { FAMILY, isJudged, ORDER } from './kinds/index.ts'
import type { VerdictName } from './verdict-names.ts'

export interface Pattern {
  /** `all`, `bank N`, `cylinder N`, `mixed` or `none`. */
  pattern: string
  /** The cylinders that make it. */
  cylinders: readonly number[]
  says: Says
}

/**
 * Where on the engine the odd cylinders lie. The same verdict on every judged cylinder points at something shared,
 * on exactly one bank at something that bank shares, on one cylinder at that cylinder.
 *
 * @param verdicts  one verdict a cylinder
 * @param banks     bank name -> its cylinders, where the job states them
 * @param apart     cylinders apart in firing voltage, burn time or oscillations: never said to be in order
 */
export function enginePattern(
  verdicts: ReadonlyMap<number, VerdictName>,
  banks: Readonly<Record<string, readonly number[]>> | undefined,
  apart: ReadonlySet<number> = new Set(),
): Pattern {
  const judged = [...verdicts]
    .filter(([, v]) => isJudged(v))
    .map(([c]) => c)
    .sort((a, b) => a - b)
  const odd = judged.filter((c) => FAMILY[verdicts.get(c)!])
  const names = odd.join(', ')
  if (judged.length === 0) return { pattern: 'none', cylinders: [], says: sentence('pattern.not-judged') }
  if (odd.length === 0) {
    const beside = judged.filter((c) => apart.has(c))
    const unsure = judged.filter((c) => ORDER[verdicts.get(c)!] === 'unsure').length
    const says = unsure
      ? sentence('pattern.none-unsure', { judged: judged.length, unsure })
      : beside.length > 0
        ? sentence(beside.length === 1 ? 'pattern.none-apart-one' : 'pattern.none-apart', {
            judged: judged.length,
            cylinders: beside.join(', '),
          })
        : sentence('pattern.none', { judged: judged.length })
    return { pattern: 'none', cylinders: [], says }
  }
  const family = FAMILY[verdicts.get(odd[0]!)!]!
  const alike = odd.every((c) => FAMILY[verdicts.get(c)!] === family)
  const one = (pattern: string, says: Says): Pattern => ({ pattern, cylinders: odd, says })
  if (odd.length === 1)
    return one(
      `cylinder ${odd[0]}`,
      sentence('pattern.cylinder', {
        cylinder: odd[0]!,
        verdict: sentence(VERDICT_WORDS[verdicts.get(odd[0]!)!]),
      }),
    )
  // a few at the limit do not break the pattern the others make
  const near = judged.filter((c) => ORDER[verdicts.get(c)!] === 'unsure')
  const firm = odd.length > near.length ? judged.filter((c) => !near.includes(c)) : judged
  const seat = alike ? seatOf(odd, firm, banks) : undefined
  const open = firm === judged ? [] : near
  const beside = (pattern: Says): Says =>
    open.length === 0 ? pattern : sentence('pattern.unsure', { pattern, cylinders: open.join(', ') })
  if (seat?.scope === 'all') return one('all', beside(sentence(family.all)))
  if (seat?.scope === 'bank')
    return one(`bank ${seat.bank}`, beside(sentence(family.bank, { bank: seat.bank, cylinders: names })))
  return one('mixed', sentence('pattern.mixed', { cylinders: names }))
}

/** Where cylinders that bear the same lie among those judged. */
export type Seat =
  | { scope: 'cylinder' | 'some' | 'all'; cylinders: readonly number[] }
  | { scope: 'bank'; bank: string; cylinders: readonly number[] }

/** One alone, all of several, exactly those of a bank, or several in no group. */
export function seatOf(
  odd: readonly number[],
  judged: readonly number[],
  banks: Readonly<Record<string, readonly number[]>> | undefined,
): Seat {
  const cylinders = [...odd].sort((a, b) => a - b)
  if (odd.length === 1) return { scope: 'cylinder', cylinders }
  if (odd.length === judged.length) return { scope: 'all', cylinders }
  const bank = bankOf(odd, judged, banks)
  return bank === undefined ? { scope: 'some', cylinders } : { scope: 'bank', bank, cylinders }
}

/** The bank whose judged cylinders are exactly the odd ones, while another bank has judged cylinders in order. */
function bankOf(
  odd: readonly number[],
  judged: readonly number[],
  banks: Readonly<Record<string, readonly number[]>> | undefined,
): string | undefined {
  for (const [name, members] of Object.entries(banks ?? {})) {
    const here = judged.filter((c) => members.includes(c))
    if (here.length === odd.length && here.every((c) => odd.includes(c)) && here.length < judged.length)
      return name
  }
  return undefined
}
