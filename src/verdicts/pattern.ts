import { VERDICT_WORDS } from './verdict-words.ts'
import { sentence } from '../texts/messages.ts'
import type { Says } from '../test-log/findings.ts'
import type { Family } from './kinds/define-verdict.ts'
import { ofVerdicts } from './kinds/index.ts'
import type { VerdictName } from './verdict-names.ts'

/** Verdicts that speak of the same thing when several cylinders bear them. */
export const FAMILY: Readonly<Record<VerdictName, Family | undefined>> = ofVerdicts((v) => v.family)

const ALL = {
  lean: 'pattern.all-lean',
  falling: 'pattern.all-falling',
  circuit: 'pattern.all-circuit',
  misfiring: 'pattern.all-misfiring',
} as const
const BANK = {
  lean: 'pattern.bank-lean',
  falling: 'pattern.bank-falling',
  circuit: 'pattern.bank-circuit',
  misfiring: 'pattern.bank-misfiring',
} as const

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
    .filter(([, v]) => v !== 'not judged')
    .map(([c]) => c)
    .sort((a, b) => a - b)
  const odd = judged.filter((c) => FAMILY[verdicts.get(c)!])
  const names = odd.join(', ')
  if (judged.length === 0) return { pattern: 'none', cylinders: [], says: sentence('pattern.not-judged') }
  if (odd.length === 0) {
    const beside = judged.filter((c) => apart.has(c))
    const unsure = judged.filter((c) => verdicts.get(c) === 'borderline').length
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
  if (alike && odd.length === judged.length) return one('all', sentence(ALL[family]))
  const bank = alike ? bankOf(odd, judged, banks) : undefined
  if (bank) return one(`bank ${bank}`, sentence(BANK[family], { bank, cylinders: names }))
  return one('mixed', sentence('pattern.mixed', { cylinders: names }))
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
