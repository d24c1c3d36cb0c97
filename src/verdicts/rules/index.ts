import { borderline } from './borderline.ts'
import { externalResistance } from './external-resistance.ts'
import { falling, lowCompression, rich } from './falling.ts'
import { gated } from './gated.ts'
import { lean } from './lean.ts'
import { level } from './level.ts'
import { misfiring } from './misfiring.ts'
import { mixtureGated } from './mixture-gated.ts'
import { openSecondary } from './open-secondary.ts'
import { tooFewEvents } from './too-few-events.ts'

/**
 * The rules in the order they are asked; the first one met decides.
 * What forbids any verdict comes first, then faults of the circuit (they distort the line, so they go before the
 * mixture), then what forbids a mixture verdict, then the mixture.
 */
export const RULES = [
  gated, tooFewEvents, openSecondary, misfiring, externalResistance, mixtureGated,
  lean, lowCompression, rich, falling, level, borderline,
] as const
