import type { Result } from '../../records/result.ts'
import { formatNumber } from '../../texts/format-quantity.ts'
import { placeWords } from '../../texts/place-words.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { list } from '../blocks/list.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { findingWords, pair, series, stepWord } from './words.ts'

/** How the causes were weighed: which led after each test, what was ruled out and by what, and the ledger in full. */
export function weighing(input: PageInput): Section {
  const { result, texts } = input
  const title = say(texts, 'report.weighing.title')
  // Where nothing was found out of order there is no cause to weigh.
  if (result.causes.length === 0 || result.conclusion.as_found.class === 'in order')
    return { title, level: 2, blocks: [] }
  return {
    title,
    level: 2,
    blocks: [
      paragraph(result.ledger.standing.text),
      paragraph(`${say(texts, 'report.causes.opinion')} ${result.ledger.origin.text}`, { color: 'quiet' }),
      ...chain(input),
      ...ruledOut(input),
      heading(3, t(input, 'report.causes.weighed')),
      ...ranking(input),
      ...sensitivity(input),
    ],
  }
}

const t = ({ texts }: PageInput, key: WordKey) => say(texts, key)
const percent = ({ texts }: PageInput, share: number) =>
  `${formatNumber(100 * share, 0, texts.language)}\u00a0%`
const placed = ({ texts }: PageInput, name: string, place: string | null) =>
  place === null ? { text: name } : { text: name, note: placeWords(texts, place) }

/** The tests that bear on causes, in order, each with the cause that stood first after it. */
function chain(input: PageInput): Block[] {
  const { chain: all, entries } = input.result.ledger
  const weighed = new Set(entries.flatMap((entry) => entry.tests))
  const links = all.filter(({ moved, test }) => moved || test === null || weighed.has(test))
  const rows = together(input, links)
  // A first place that never moved needs no table.
  if (rows.length < 2) return []
  return [
    heading(3, t(input, 'report.causes.chain')),
    table({
      caption: t(input, 'report.causes.chain'),
      dense: true,
      size: 'fine',
      columns: [
        { title: t(input, 'report.causes.after'), grow: 3 },
        { title: t(input, 'report.causes.first'), grow: 2 },
        { title: t(input, 'report.causes.probability'), grow: 0, align: 'right' },
      ],
      rows: rows.map(({ links: of, name, share }) => [
        series(
          input.texts,
          of.map((link) => stepWords(input, link)),
        ),
        name,
        share,
      ]),
    }),
  ]
}

type Link = Result['ledger']['chain'][number]

/** Steps one after the other that left the first place and its share, as printed, alone are one row with the step before. */
function together(
  input: PageInput,
  links: readonly Link[],
): { links: Link[]; name: string; share: string }[] {
  const rows: { links: Link[]; name: string; share: string }[] = []
  for (const link of links) {
    const share = percent(input, link.probability)
    const last = rows.at(-1)
    if (last && last.name === link.name && last.share === share) last.links.push(link)
    else rows.push({ links: [link], name: link.name, share })
  }
  return rows
}

function stepWords(input: PageInput, { after, test }: Link): string {
  const { result, texts } = input
  if (test === null)
    return t(
      input,
      after === 'captures' ? 'report.causes.after-captures' : 'report.causes.after-repair-check',
    )
  const { step, place, finding, readings, mark } = result.tests[test]!
  const what = place ?? (step === 'code' ? readings.map((r) => r.reading).join(', ') : null)
  const name = pair(texts, stepWord(texts, step), what)
  return [
    `${mark}\u00a0\u00a0${name}`,
    ...(finding === 'recorded' ? [] : [findingWords(texts, { step, finding })]),
  ].join(', ')
}

/** A share below this moves nothing; such causes stand in result.json. */
const LEAST_SHARE = 0.02
const FEWEST_CAUSES = 2

function ranking(input: PageInput): Block[] {
  const { result, texts } = input
  const shown = result.causes.filter(({ probability }, i) => i < FEWEST_CAUSES || probability >= LEAST_SHARE)
  const left = result.causes.length - shown.length
  const lines = (statements: Result['causes'][number]['for']) =>
    statements.length === 0 ? '\u2013' : { text: '', items: statements.map(({ text }) => text) }
  const all = table({
    caption: t(input, 'report.causes.ranking'),
    dense: true,
    size: 'fine',
    fewestRows: 1,
    columns: [
      { title: t(input, 'report.causes.rank'), grow: 0, align: 'right' },
      { title: t(input, 'report.causes.cause'), grow: 1.4 },
      { title: t(input, 'report.causes.probability'), grow: 0, align: 'right' },
      { title: t(input, 'report.causes.for'), grow: 3 },
      { title: t(input, 'report.causes.against'), grow: 2 },
    ],
    rows: shown.map((cause, i) => [
      String(i + 1),
      placed(input, cause.name.text, cause.place),
      percent(input, cause.probability),
      lines(cause.for),
      lines(cause.against),
    ]),
  })
  return left === 0
    ? [all]
    : [
        all,
        paragraph(say(texts, 'report.causes.left-out', { count: left, percent: 100 * LEAST_SHARE }), {
          color: 'quiet',
          gapPt: 2,
        }),
      ]
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
    heading(3, t(input, 'report.causes.ruled-out')),
    table({
      caption: t(input, 'report.causes.ruled-out'),
      dense: true,
      size: 'fine',
      fewestRows: 1,
      columns: [
        { title: t(input, 'report.causes.by'), grow: 1, leastShare: 0.3 },
        { title: t(input, 'report.causes.causes'), grow: 3 },
      ],
      rows: [...groups].map(([evidence, names]) => [evidence, names.join('\u00a0\u00b7 ')]),
    }),
  ]
}

function sensitivity(input: PageInput): Block[] {
  const { sensitivity: all } = input.result.ledger
  return [
    heading(3, t(input, 'report.causes.sensitivity')),
    all.length ? list(all.map(({ text }) => text)) : paragraph(t(input, 'report.causes.robust')),
  ]
}
