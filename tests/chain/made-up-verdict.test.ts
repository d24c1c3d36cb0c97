import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test, vi } from 'vitest'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import type { WordKey } from '../../src/texts/messages.ts'
import type { Rule } from '../../src/verdicts/define-rule.ts'
import type { VerdictName } from '../../src/verdicts/verdict-names.ts'
import type { Verdict } from '../../src/verdicts/kinds/define-verdict.ts'
import { copyDemoJob } from '../support/demo-job.ts'
import { allText, openPdf } from '../support/read-pdf.ts'

const WORDS = vi.hoisted(() => ({
  words: 'chart.verdict.leaky' as WordKey,
  means: 'chart.customer.means.leaky' as WordKey,
  signWords: 'report.sign.leaky' as WordKey,
  says: 'verdict.leaky' as WordKey,
}))

// A verdict nobody has: what it takes is one declaration, a rule and its texts.
vi.mock('../../src/verdicts/kinds/all.ts', async (original) => {
  const real = await original<typeof import('../../src/verdicts/kinds/all.ts')>()
  const { falling } = await import('../../src/verdicts/families/falling.ts')
  const leaky: Verdict = {
    name: 'leaky',
    order: 'out of order',
    family: falling,
    repairs: 'mixture',
    shows: { kind: 'compression', direction: 'low compression' },
    burn: 'falling',
    measuresOthers: true,
    shaped: true,
    words: WORDS.words,
    means: WORDS.means,
    points: undefined,
    sign: '+',
    signWords: WORDS.signWords,
    look: { shape: 'triangle-down', fill: 'ink', stroke: 'ink' },
  }
  return { ...real, VERDICTS: [...real.VERDICTS, leaky] }
})
vi.mock('../../src/verdicts/rules/index.ts', async (original) => {
  const real = await original<typeof import('../../src/verdicts/rules/index.ts')>()
  const { RULES } = real as { RULES: readonly Rule[] }
  const says = { verdict: 'leaky' as VerdictName, says: WORDS.says }
  return {
    ...real,
    RULES: RULES.map((rule) => (rule.verdict === 'low compression' ? { ...rule, ...says } : rule)),
  }
})

const folder = mkdtempSync(join(tmpdir(), 'made-up-verdict-'))
afterAll(() => rmSync(folder, { recursive: true }))

test('a made-up verdict runs from the folder to the PDF', async () => {
  copyDemoJob(folder, 'MADE-UP')
  const texts = loadTexts('en')
  const { result, files } = await runJob(
    folder,
    { page: 'A4', version: '0', embedCaptures: false, program: '', store: NO_STORE },
    {
      ...texts,
      templates: {
        ...texts.templates,
        [WORDS.words]: 'leaky',
        [WORDS.means]: 'This cylinder lets its pressure go.',
        [WORDS.signWords]: 'its pressure goes',
        [WORDS.says]: 'It is leaky.',
      },
    },
  )
  const bear = result.cylinders.filter((c) => (c.verdict as string) === 'leaky')
  const named = bear.map((c) => c.cylinder)
  expect(named.length).toBeGreaterThan(0)
  expect(bear.map((c) => c.reason.text)).toEqual(bear.map(() => 'It is leaky.'))
  // Where it lies is told by its family, what it makes of the engine by the finding it shows as.
  expect(result.engine.before?.cylinders).toEqual(named)
  const found = result.conclusion.findings.filter(
    (f) => f.state === 'as found' && f.direction === 'low compression',
  )
  expect(found.map((f) => f.where.cylinders)).toEqual([named])
  const faults = result.conclusion.faults
  expect(faults.flatMap((f) => f.explains)).toContain(found[0]!.id)
  const pages = await allText(await openPdf(files.get('report.pdf') as Uint8Array))
  for (const words of ['leaky', 'its pressure goes'])
    expect(pages.replace(/\s+/g, ' '), words).toContain(words)
}, 120_000)
