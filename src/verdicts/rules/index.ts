import { borderline } from './borderline.ts'
import { borderlineOfFellows } from './borderline-of-fellows.ts'
import { borderlineOffIdle } from './borderline-off-idle.ts'
import { externalResistance } from './external-resistance.ts'
import { externalEven } from './external-even.ts'
import { externalShape } from './external-shape.ts'
import {
  falling,
  fallingThroughout,
  lowCompression,
  lowCompressionThroughout,
  rich,
  richThroughout,
} from './falling.ts'
import { fallingOfFellows, lowCompressionOfFellows, richOfFellows } from './falling-of-fellows.ts'
import { gated } from './gated.ts'
import { goesOut } from './goes-out.ts'
import { lean } from './lean.ts'
import { leanOfFellows } from './lean-of-fellows.ts'
import { leanOffIdle } from './lean-off-idle.ts'
import { level } from './level.ts'
import { levelOfFellows } from './level-of-fellows.ts'
import { levelOffIdle } from './level-off-idle.ts'
import { misfireUnsure } from './misfire-unsure.ts'
import { misfiring } from './misfiring.ts'
import { mixtureGated } from './mixture-gated.ts'
import { openSecondary, openSecondaryAlone, openSecondaryRelative } from './open-secondary.ts'
import { tooFewEvents } from './too-few-events.ts'
import { tooFewLines } from './too-few-lines.ts'

/**
 * The rules in the order they are asked; the first one met decides.
 * What forbids any verdict comes first, then faults of the circuit (they distort the line, so they go before the
 * mixture), then what forbids a mixture verdict, then the mixture: at idle by the limit, off idle by the fellows and,
 * where none of them is level, by the limit.
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
  externalEven,
  mixtureGated,
  tooFewLines,
  lean,
  leanOfFellows,
  leanOffIdle,
  lowCompressionOfFellows,
  richOfFellows,
  fallingOfFellows,
  lowCompressionThroughout,
  richThroughout,
  fallingThroughout,
  lowCompression,
  rich,
  falling,
  goesOut,
  misfireUnsure,
  level,
  levelOfFellows,
  borderlineOfFellows,
  levelOffIdle,
  borderline,
  borderlineOffIdle,
] as const
