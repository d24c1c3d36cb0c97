import { verdictOf } from '../kinds/index.ts'
import type { ReadCylinder } from './reading.ts'

/** One fellow cannot say which of the two is apart. */
const LEAST = 2

/**
 * Fellows a figure may be held against: those that burn like the cylinder itself, since the mixture moves firing
 * voltage and burn time too. One that misfires is held against those in order, and is no measure for them. None where
 * the verdict itself explains what the figures would show, or where fewer than two are left.
 */
export function fellowsLike(own: ReadCylinder, fellows: readonly ReadCylinder[]): readonly ReadCylinder[] {
  const { burn } = verdictOf(own.verdict)
  if (burn === undefined) return []
  const alike = fellows
    .map((f) => ({ f, like: verdictOf(f.verdict) }))
    .filter(({ like }) => like.measuresOthers && like.burn === burn)
    .map(({ f }) => f)
  return alike.length >= LEAST ? alike : []
}

/** Whether a figure may be held against what is usual: only where the burn does not explain it by itself. */
export const burnsInOrder = ({ verdict }: ReadCylinder): boolean => verdictOf(verdict).burn === 'in order'
