import type { Result } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { say } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { callout } from '../blocks/callout.ts'
import { chart } from '../blocks/chart.ts'
import { heading } from '../blocks/heading.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { wordFor } from './words.ts'

/** How the cause was found: what may be said, the chain of tests, the ranked causes, what was ruled out and by what, the next test. */
export function causes(input: PageInput): Section {
  const { result, texts, charts } = input
  const title = say(texts, 'report.causes.title')
  if (result.causes.length === 0) return { title, level: 2, blocks: [] }
  const { ledger } = result
  return {
    title, level: 2,
    blocks: [
      paragraph(ledger.standing.text, { face: 'semibold', keepWithNext: true }),
      ...[...ledger.contradictions, ...(ledger.overridden ? [ledger.overridden] : [])].map(({ text }) => paragraph(text)),
      paragraph(`${say(texts, 'report.causes.opinion')} ${ledger.origin.text}`, { color: 'quiet', keepWithNext: true }),
      ...charts.filter(({ id }) => id === 'causes').map((plan) => chart(plan)),
      ...chain(input), ranking(input), ...ruledOut(input), ...sensitivity(input), ...nextTest(input),
    ],
  }
}

const t = ({ texts }: PageInput, key: string) => say(texts, `report.causes.${key}`)
const percent = ({ texts }: PageInput, share: number) => `${formatNumber(100 * share, 0, texts.language)}\u00a0%`
const placed = (name: string, place: string | null) => (place === null ? { text: name } : { text: name, note: place })

/** The tests that changed the standing, in order, each with the cause that stood first after it. */
function chain(input: PageInput): Block[] {
  const links = input.result.ledger.chain.filter((link) => link.moved)
  if (links.length === 0) return []
  return [
    heading(3, t(input, 'chain')),
    table({
      caption: t(input, 'chain'),
      columns: [{ title: t(input, 'after'), grow: 2 }, { title: t(input, 'first'), grow: 2.4 }, { title: t(input, 'probability'), grow: 0, align: 'right' }],
      rows: links.map((link) => [stepWords(input, link), link.name, percent(input, link.probability)]),
    }),
  ]
}

function stepWords(input: PageInput, { after, test }: Result['ledger']['chain'][number]): string {
  const { result, texts } = input
  if (test === null) return t(input, after === 'captures' ? 'after-captures' : 'after-repair-check')
  const { step, place, finding, readings } = result.tests[test]!
  const what = place ?? (step === 'code' ? readings.map((r) => r.reading).join(', ') : null)
  const name = [wordFor(texts, 'step', step), what].filter(Boolean).join(': ')
  return finding === 'recorded' ? `${test + 1}  ${name}` : `${test + 1}  ${name}, ${wordFor(texts, 'finding', finding)}`
}

function ranking(input: PageInput): Block {
  const { result } = input
  const lines = (statements: Result['causes'][number]['for']) => statements.map(({ text }) => text).join(' ') || '\u2013'
  return table({
    caption: t(input, 'ranking'),
    columns: [
      { title: t(input, 'rank'), grow: 0, align: 'right' }, { title: t(input, 'cause'), grow: 1.4 },
      { title: t(input, 'probability'), grow: 0, align: 'right' }, { title: t(input, 'for'), grow: 2.2 }, { title: t(input, 'against'), grow: 2 },
    ],
    rows: result.causes.map((cause, i) => [
      String(i + 1), placed(cause.name.text, cause.place), percent(input, cause.probability), lines(cause.for), lines(cause.against),
    ]),
  })
}

/** Causes with next to no share left, gathered by the evidence that spoke most against them. */
function ruledOut(input: PageInput): Block[] {
  const groups = new Map<string, string[]>()
  for (const { name, by } of input.result.ledger.ruled_out) {
    const evidence = by[0]!.says.text
    groups.set(evidence, [...(groups.get(evidence) ?? []), name.text])
  }
  if (groups.size === 0) return []
  return [
    heading(3, t(input, 'ruled-out')),
    table({
      caption: t(input, 'ruled-out'),
      columns: [{ title: t(input, 'by'), grow: 1 }, { title: t(input, 'causes'), grow: 2 }],
      rows: [...groups].map(([evidence, names]) => [evidence, names.join('; ')]),
    }),
  ]
}

function sensitivity(input: PageInput): Block[] {
  const { sensitivity: all } = input.result.ledger
  return [heading(3, t(input, 'sensitivity')), all.length ? list(all.map(({ text }) => text)) : paragraph(t(input, 'robust'))]
}

/** The next test with what each outcome would mean and the dangers that go with it; or why there is none. */
function nextTest(input: PageInput): Block[] {
  const { result, texts } = input
  const next = result.next_test
  const settled = result.repair.verdict === 'repair confirmed' && result.ledger.kind === 'clear'
  if (!next) return [heading(3, t(input, 'next')), paragraph(say(texts, settled ? 'next-test.none-settled' : 'next-test.none-left'))]
  const dangers = next.cautions.map((c) => say(texts, `report.cautions.${c}-title`))
  return [
    heading(3, t(input, 'next')), paragraph(next.says.text, { face: 'semibold', keepWithNext: true }),
    list(next.outcomes.map(({ says }) => says.text)), callout(t(input, 'dangers'), dangers.join('. ')),
  ]
}
