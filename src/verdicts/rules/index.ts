import { borderline } from './borderline.ts'
import { externalResistance } from './external-resistance.ts'
import { externalShape } from './external-shape.ts'
import { falling, lowCompression, rich } from './falling.ts'
import { fallsThroughout } from './falls-throughout.ts'
import { gated } from './gated.ts'
import { lean } from './lean.ts'
import { level } from './level.ts'
import { misfireUnsure } from './misfire-unsure.ts'
import { misfiring } from './misfiring.ts'
import { mixtureGated } from './mixture-gated.ts'
import { openSecondary, openSecondaryAlone, openSecondaryRelative } from './open-secondary.ts'
import { tooFewEvents } from './too-few-events.ts'
import { tooFewLines } from './too-few-lines.ts'

/**
 * The rules in the order they are asked; the first one met decides.
 * What forbids any verdict comes first, then faults of the circuit (they distort the line, so they go before the
 * mixture), then what forbids a mixture verdict, then the mixture.
 */
export const RULES = [
  gated,
  tooFewEvents,
  openSecondary,
  openSecondaryAlone,
  openSecondaryRelative,
  misfiring,
  externalResistance,
  externalShape,
  mixtureGated,
  tooFewLines,
  lean,
  fallsThroughout,
  lowCompression,
  rich,
  falling,
  misfireUnsure,
  level,
  borderline,
] as const
