import { confirmed } from './confirmed.ts'
import { goodEngine } from './good-engine.ts'
import { nextStep } from './next-step.ts'
import { noDenial } from './no-denial.ts'
import { noReassurance } from './no-reassurance.ts'
import { openFaultsNamed } from './open-faults-named.ts'
import { patternHolds } from './pattern-holds.ts'
import type { Predicate } from './predicate.ts'
import { ruledOut } from './ruled-out.ts'
import { trueToLife } from './true-to-life.ts'

/** What must hold of every report; that the order of rows changes nothing needs two runs and stands in order.ts. */
export const PREDICATES: readonly Predicate[] = [
  noReassurance,
  confirmed,
  openFaultsNamed,
  patternHolds,
  nextStep,
  ruledOut,
  noDenial,
  goodEngine,
  trueToLife,
]
