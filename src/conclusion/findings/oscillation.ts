import { standingApart } from './apart.ts'
import type { FindingReader } from './reader.ts'

/** Coil oscillations after the spark, apart from the fellows': few or none speak of the coil's winding. */
export const oscillation: FindingReader = {
  kind: 'oscillation',
  side: 'captures',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['low', 'high'],
  role: 'beside',
  byCylinder: true,
  shift: undefined,
  read: (seen) => standingApart(seen, { kind: 'oscillation', apart: 'coil_cycles', figure: 'coilCycles' }),
  short: () => 'headline.found.oscillation',
  plain: () => 'page.found.oscillation',
  figure: () => undefined,
  again: 'page.again.mixture',
}
