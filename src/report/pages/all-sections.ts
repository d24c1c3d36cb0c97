import { beforeAfter } from './before-after.ts'
import { causes } from './causes.ts'
import { cautions } from './cautions.ts'
import { complaintCauseCorrection } from './complaint-cause-correction.ts'
import { customerPage } from './customer.ts'
import { cylinders } from './cylinders.ts'
import { declaration } from './declaration.ts'
import { evidence } from './evidence.ts'
import { limits } from './limits.ts'
import { method } from './method.ts'
import type { PageInput, Section } from './page-input.ts'
import { ownTexts } from './own-texts.ts'
import { tests } from './tests.ts'

/** The report in reading order: first the customer, then the claim, then the evidence. */
const SECTIONS = [
  customerPage,
  complaintCauseCorrection,
  cylinders,
  tests,
  beforeAfter,
  causes,
  method,
  limits,
  ownTexts,
  cautions,
  evidence,
  declaration,
] as const

/** Every section that has something to say. */
export const allSections = (input: PageInput): readonly Section[] =>
  SECTIONS.map((section) => section(input)).filter(({ blocks }) => blocks.length > 0)
