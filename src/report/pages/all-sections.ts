import { say } from '../../texts/say.ts'
import { causes } from './causes.ts'
import { cautions } from './cautions.ts'
import { customerPage } from './customer.ts'
import { cylinders } from './cylinders.ts'
import { declaration, signatures } from './declaration.ts'
import { evidence } from './evidence.ts'
import { limits } from './limits.ts'
import { method } from './method.ts'
import type { PageInput, Section } from './page-input.ts'
import { ownTexts } from './own-texts.ts'
import { record } from './record.ts'
import { recordings } from './recordings.ts'
import { review } from './review.ts'
import { tests } from './tests.ts'
import { testFigures } from './test-figures.ts'
import { weighing } from './weighing.ts'

/** After the customer's page and the record: the evidence, what follows from it, and who signs. */
const EVIDENCE = [recordings, tests, causes, review, signatures] as const

/** Figures, method and proof, to look things up in. */
const ANNEX = [
  cylinders,
  testFigures,
  weighing,
  method,
  limits,
  ownTexts,
  cautions,
  evidence,
  declaration,
] as const

/** Every section that has something to say, in the order a reader needs it: first the customer, then the record, the evidence, and the annex. */
export function allSections(input: PageInput): readonly Section[] {
  const made = (sections: readonly ((input: PageInput) => Section)[]) =>
    sections.map((section) => section(input)).filter(({ blocks }) => blocks.length > 0)
  const annex = made(ANNEX).map((section, i) => ({
    ...section,
    type: 'fine' as const,
    title: say(input.texts, 'report.annex', { letter: letter(i), title: section.title }),
  }))
  const behind = [...made(EVIDENCE), ...annex].map((section, i) => ({ ...section, anchor: `part-${i + 1}` }))
  const entries = behind.map(({ title, anchor }) => ({ title, anchor }))
  return [customerPage(input), record(input, entries), ...behind]
}

/** "A" for the first part of the annex. */
const letter = (i: number): string => String.fromCodePoint('A'.codePointAt(0)! + i)
