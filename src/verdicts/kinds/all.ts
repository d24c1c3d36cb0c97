import { borderline } from './borderline.ts'
import { externalResistance } from './external-resistance.ts'
import { falling } from './falling.ts'
import { lean } from './lean.ts'
import { level } from './level.ts'
import { lowCompression } from './low-compression.ts'
import { misfiring } from './misfiring.ts'
import { notJudged } from './not-judged.ts'
import { openSecondary } from './open-secondary.ts'
import { rich } from './rich.ts'

/** Every verdict on a cylinder, in the order of the records' words. */
export const VERDICTS = [
  level,
  lean,
  falling,
  rich,
  lowCompression,
  borderline,
  externalResistance,
  openSecondary,
  misfiring,
  notJudged,
] as const
export type VerdictName = (typeof VERDICTS)[number]['name']
