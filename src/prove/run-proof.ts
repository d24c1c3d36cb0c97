import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { loadLimits, parseLimits, type LimitTable } from '../limits/limits.ts'
import { circuitCaptures } from './circuit-captures.ts'
import { measureKnown } from './measure-known.ts'
import { modelCaptures } from './model-captures.ts'
import { PROVED, type ScoredCapture } from './proof.ts'
import { scoreReading } from './score-reading.ts'

/** Limits of the proof, from templates/proof-limits.yaml. */
export const proofLimits = (): LimitTable<(typeof PROVED)[number]> =>
  parseLimits(
    parse(readFileSync(new URL('../../templates/proof-limits.yaml', import.meta.url), 'utf8')),
    PROVED,
  )

/** Runs the measuring chain on every capture with known truth and scores it. @param told called as each one stands */
export async function runProof(told: (scored: ScoredCapture) => void): Promise<ScoredCapture[]> {
  const limits = loadLimits()
  const scored: ScoredCapture[] = []
  for (const known of [...(await circuitCaptures()), ...modelCaptures()]) {
    const one = {
      name: known.name,
      origin: known.origin,
      score: scoreReading(known, measureKnown(known, limits)),
    }
    scored.push(one)
    told(one)
  }
  return scored
}
