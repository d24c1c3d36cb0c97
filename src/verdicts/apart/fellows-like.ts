import type { VerdictName } from '../verdict-names.ts'
import type { ReadCylinder } from './reading.ts'

/** How a verdict lets the other figures be read: like whose burn they are, and whether they serve as a measure for others. */
type Burn = 'in order' | 'lean' | 'falling'
const BURN: Readonly<Record<VerdictName, Burn | undefined>> = {
  level: 'in order',
  borderline: 'in order',
  'not judged': 'in order',
  lean: 'lean',
  falling: 'falling',
  rich: 'falling',
  'low compression': 'falling',
  misfiring: 'in order',
  'external resistance': undefined,
  'open secondary': undefined,
}

/** One fellow cannot say which of the two is apart. */
const LEAST = 2

/**
 * Fellows a figure may be held against: those that burn like the cylinder itself, since the mixture moves firing
 * voltage and burn time too. One that misfires is held against those in order, and is no measure for them. None where
 * the verdict itself explains what the figures would show, or where fewer than two are left.
 */
export function fellowsLike(own: ReadCylinder, fellows: readonly ReadCylinder[]): readonly ReadCylinder[] {
  const burn = BURN[own.verdict]
  if (burn === undefined) return []
  const alike = fellows.filter((f) => BURN[f.verdict] === burn && f.verdict !== 'misfiring')
  return alike.length >= LEAST ? alike : []
}

/** Whether a figure may be held against what is usual: only where the burn does not explain it by itself. */
export const burnsInOrder = ({ verdict }: ReadCylinder): boolean => BURN[verdict] === 'in order'
