import type { EvidenceKind } from '../../../src/limits/keys.ts'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { STEPS } from '../../../src/job/log-steps.ts'
import { STEP_KINDS } from '../../../src/test-log/steps/index.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { table } from '../../verdicts/causes/case.ts'

const kinds = STEPS.map((step) => [step, STEP_KINDS[step]] as const)
const readme = readFileSync(fileURLToPath(new URL('../../../README.md', import.meta.url)), 'utf8')

describe.each(kinds)('%s', (step, kind) => {
  test('what it can show has its weights and its words in every language', () => {
    expect(kind.evidence.filter((e) => table.evidence[e] === undefined)).toEqual([])
    for (const language of LANGUAGES) {
      const { templates } = loadTexts(language)
      expect(kind.evidence.filter((e) => templates[`evidence.${e}`] === undefined)).toEqual([])
      expect(templates[kind.title]).toBeDefined()
    }
  })

  test('a proposed test that is logged as this step carries its cautions', () => {
    for (const [id, proposed] of Object.entries({ ...table.tests, ...table.follow_ups }))
      if (proposed.step === step)
        expect(
          kind.cautions.filter((c) => !proposed.cautions.includes(c)),
          id,
        ).toEqual([])
  })

  test('the words its outcomes are asked for in are understood', () => {
    expect(kind.outcome?.words.filter((w) => !kind.outcome!.reads(w)) ?? []).toEqual([])
  })

  test('stands in the table of steps of README.md', () => {
    expect(readme).toMatch(new RegExp(`^\\| .*\`${step}\`.* \\|`, 'm'))
  })
})

test('every proposed test and every piece of evidence of a log belongs to a step', () => {
  const steps = new Set<string>(STEPS)
  const proposed = Object.entries(table.tests).filter(([, t]) => t.step === undefined || !steps.has(t.step))
  expect(proposed.map(([id]) => id)).toEqual([])
  const shown = new Set(kinds.flatMap(([, { evidence }]) => evidence))
  const ofCaptures = /^(burn-|firing-|oscillations-|idle-swings)/
  expect(
    Object.keys(table.evidence).filter((e) => !shown.has(e as EvidenceKind) && !ofCaptures.test(e)),
  ).toEqual([])
})
