import { DANGERS } from '../../job/dangers.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import { cautionBlock } from './cautions.ts'
import type { PageInput, Section } from './page-input.ts'
import { outcomesWords } from './record-words.ts'

/** What may be said of the cause, and the next step under its cautions. How it was weighed stands in the annex. */
export function causes(input: PageInput): Section {
  const { result, texts } = input
  const title = say(texts, 'report.causes.title')
  if (result.causes.length === 0) return { title, level: 2, blocks: nextStep(input) }
  const { ledger } = result
  return {
    title,
    level: 2,
    blocks: [
      ...result.conclusion.faults.map(({ says }) =>
        paragraph(says.text, { face: 'semibold', keepWithNext: true }),
      ),
      ...[...ledger.contradictions, ...(ledger.overridden ? [ledger.overridden] : [])].map(({ text }) =>
        paragraph(text),
      ),
      ...nextStep(input),
    ],
  }
}

/** The next step: first the dangers of that very step in full, then what to do, then what each outcome would mean. One block, so that none stands without the others. */
function nextStep(input: PageInput): Block[] {
  const { result, texts } = input
  const t = sayer(texts)
  const next = result.next_test
  const title = heading(3, t('report.causes.next'))
  if (!next) {
    const settled = result.repair.verdict === 'repair confirmed' && result.ledger.kind === 'clear'
    return [title, paragraph(say(texts, settled ? 'next-test.none-settled' : 'next-test.none-left'))]
  }
  const dangers = DANGERS.filter((danger) => next.cautions.includes(danger))
  const pairs = Array.from({ length: Math.ceil(dangers.length / 2) }, (_, i) =>
    dangers.slice(2 * i, 2 * i + 2),
  )
  return [
    title,
    stack([
      ...pairs.map((pair) =>
        beside(
          pair.map((danger) => cautionBlock(texts, danger)),
          { columns: 2 },
        ),
      ),
      paragraph(next.says.text, { face: 'semibold' }),
      list(outcomesWords(texts, next.outcomes)),
    ]),
  ]
}
