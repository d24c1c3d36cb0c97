import { say, sayer, type Sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { keyValues } from '../blocks/key-values.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { signature } from '../blocks/signature.ts'
import { stack } from '../blocks/stack.ts'
import type { PageInput, Section } from './page-input.ts'
import { reviewers } from './review.ts'
import { dateWords, reportDate, revisionWords, timeWords } from './words.ts'

/** Who signs, under what the report holds for: one block, so that nobody signs a sheet without the words above. */
export function signatures(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  const { technician, customer } = result.job
  return {
    title: t('report.signatures.title'),
    level: 2,
    blocks: [
      stack([
        paragraph(
          [
            t('report.declaration.items'),
            t('report.declaration.in-full'),
            t('report.declaration.supplied'),
            t('report.declaration.no-accreditation'),
          ].join(' '),
          { size: 'fine' },
        ),
        beside([
          signature({
            role: t('report.declaration.authorises'),
            name: [technician.name, technician.certificate].filter(Boolean).join(', '),
            under: t('report.declaration.signed'),
          }),
          signature({
            role: t('report.declaration.receives'),
            name: customer?.name ?? say(texts, 'report.not-given'),
            under: t('report.declaration.signed'),
          }),
        ]),
        ...reviewers(input).map((name) =>
          signature({
            role: t('report.review.signs', { title: t('report.review.title') }),
            name,
            under: t('report.declaration.signed'),
          }),
        ),
      ]),
    ],
  }
}

/** Where each thing a test report should show is found, and the end mark. */
export function declaration(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  return {
    title: t('report.declaration.title'),
    level: 2,
    blocks: [
      ...revision(input),
      ...rowsOfFour(contents(input)),
      paragraph(t('report.declaration.end', { workOrder: result.job.work_order }), {
        face: 'semibold',
        gapPt: 12,
      }),
    ],
  }
}

const FOUR = 4

/** Four fields a row, so that a page may end between them. */
const rowsOfFour = (fields: ReturnType<typeof contents>): Block[] =>
  Array.from({ length: Math.ceil(fields.length / FOUR) }, (_, i) =>
    halves(fields.slice(FOUR * i, FOUR * (i + 1))),
  )

/** Fields in two columns, read one after the other. */
const halves = (fields: ReturnType<typeof contents>): Block => {
  const middle = Math.ceil(fields.length / 2)
  return beside(
    [fields.slice(0, middle), fields.slice(middle)].map((column) =>
      keyValues(column, { nameShare: 0.34, dense: true, size: 'fine' }),
    ),
  )
}

/** Across the page: it holds a digest. */
function revision({ result, texts }: PageInput): Block[] {
  const fields = revisionFields(result, texts)
  return fields.length === 0
    ? []
    : [keyValues(fields, { nameShare: 0.17, dense: true, size: 'fine', keepWithNext: true })]
}

/** A reissue says what it replaces and what changed (ISO/IEC 17025:2017, 7.8.8). */
function revisionFields(
  result: PageInput['result'],
  texts: PageInput['texts'],
): { name: string; value: string }[] {
  const { revision } = result
  if (!revision) return []
  const replaced = say(texts, 'report.declaration.replaces', {
    number: revision.replaces.number,
    digest: revision.replaces.result_sha256,
  })
  return [
    { name: say(texts, 'report.revision'), value: `${revisionWords(texts, result)}. ${replaced}` },
    {
      name: say(texts, 'report.declaration.changes'),
      value: revision.changes.map(({ text }) => text).join(' '),
    },
  ]
}

/** The points a test report should show (as ISO/IEC 17025:2017, 7.8.2.1 lists them) that stand nowhere else in so many words. */
function contents({ result, texts }: PageInput): { name: string; value: string }[] {
  const t = sayer(texts)
  const { job } = result
  const taken = result.captures.map((c) => timeWords(c.taken)).toSorted()
  const tested = [...taken, ...result.tests.map((test) => timeWords(test.at))]
    .map((time) => time.slice(0, 10))
    .toSorted()
  const [first, last] = [tested[0], tested.at(-1)].map((date) => date && dateWords(texts, date))
  const performed =
    !first || !last
      ? say(texts, 'report.not-given')
      : first === last
        ? first
        : t('report.declaration.performed-words', { from: first, to: last })
  return [
    { name: t('report.declaration.kind'), value: t('report.declaration.kind-words') },
    {
      name: t('report.declaration.identity'),
      value: t('report.declaration.identity-words', { workOrder: job.work_order }),
    },
    {
      name: t('report.declaration.place'),
      value: job.shop.address
        ? t('report.declaration.place-shop', { address: job.shop.address })
        : t('report.declaration.place-absent'),
    },
    {
      name: t('report.declaration.received'),
      value: t('report.declaration.received-words', { date: dateWords(texts, job.opened) }),
    },
    { name: t('report.declaration.performed'), value: performed },
    {
      name: t('report.declaration.issued'),
      value: job.closed ? dateWords(texts, reportDate(result)) : t('report.declaration.issued-open'),
    },
    { name: t('report.declaration.condition'), value: t('report.declaration.condition-words') },
    { name: t('report.declaration.sampling'), value: t('report.declaration.sampling-words') },
    { name: t('report.declaration.deviations'), value: deviations(result, t) },
    { name: t('report.declaration.others'), value: t('report.declaration.others-words') },
    { name: t('report.declaration.opinions'), value: t('report.declaration.opinions-words') },
    { name: t('report.declaration.program'), value: `${result.program.name} ${result.program.version}` },
  ]
}

/** What the shop has set in place of what the program was shipped with. */
function deviations({ limits, ledger, own_texts }: PageInput['result'], t: Sayer): string {
  const own = [
    ...(limits.some((limit) => limit.changed) ? [t('report.declaration.deviations-limits')] : []),
    ...(ledger.overridden ? [t('report.declaration.deviations-causes')] : []),
    ...(own_texts ? [t('report.declaration.deviations-texts')] : []),
  ]
  return own.length === 0 ? t('report.declaration.deviations-none') : own.join('; ')
}
