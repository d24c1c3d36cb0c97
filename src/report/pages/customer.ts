import type { Result } from '../../records/result.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { logo as logoBlock } from '../blocks/logo.ts'
import { labelled } from '../blocks/labelled.ts'
import { stack } from '../blocks/stack.ts'
import type { Block } from '../blocks/block.ts'
import { complaintSentences } from './complaint.ts'
import { changedCylinders } from './history.ts'
import { chartBlocks } from './chart-blocks.ts'
import { overruled } from './review.ts'
import type { PageInput, Section } from './page-input.ts'
import { dateWords, given, pair, quantity, reportDate, revisionWords, series, vehicleWords } from './words.ts'

/** Findings that page one says to be overruled; the others stand in their own section. */
const MOST_OVERRULED = 2

/** Page one, for the customer: the complaint, and what the conclusion says of it; one picture. */
export function customerPage(input: PageInput): Section {
  const vehicle = vehicleLine(input)
  const above = [
    ...(vehicle === '' ? [] : [paragraph(vehicle, { size: 'medium', color: 'quiet', gapPt: 2 })]),
    ...copyNote(input),
  ]
  return {
    title: say(input.texts, 'report.customer.title'),
    level: 1,
    above: [letterhead(input)],
    blocks: [...above, ...story(input, 'medium')],
    tighter: (['plain', 'small'] as const).map((size) => [...above, ...story(input, size)]),
  }
}

/** That a copy is one stands where nobody can miss it. */
const copyNote = ({ result, texts }: PageInput): Block[] =>
  result.redacted === undefined
    ? []
    : [
        paragraph(say(texts, 'report.customer.redacted', { fields: result.redacted.join(', ') }), {
          face: 'semibold',
        }),
      ]

/** What happened, one labelled passage after the other, with the picture between. */
function story(input: PageInput, size: 'small' | 'plain' | 'medium'): Block[] {
  const { result, texts, charts } = input
  const t = sayer(texts)
  const pictures = charts.filter(({ place }) => place === 'customer')
  const said = (key: WordKey, sentences: readonly string[]): Block[] =>
    sentences.length === 0 ? [] : [labelled(t(key), sentences, { size })]
  const page = result.conclusion.page_one
  const words = (passage: readonly { text: string }[]) => passage.map(({ text }) => text)
  return [
    ...said('report.customer.complaint', [
      say(texts, 'report.customer.quoted', { words: result.job.complaint }),
    ]),
    ...said('report.customer.found', words(page.found)),
    ...said('report.customer.explains', complaintSentences(input)),
    ...said('report.customer.history', changedSentences(input)),
    ...said('report.customer.review', overruledSentences(input)),
    ...chartBlocks(pictures),
    ...said('report.customer.done', doneSentences(input)),
    ...said('report.customer.fixed', words(page.mended)),
    ...said('report.customer.driving', drivingSentences(input)),
    ...said('report.customer.then', nextSentences(input)),
    ...said('report.customer.certain', [...words(page.sure), ...restsOn(input)]),
    ...said('report.customer.uncertain', [...words(page.unchecked), t('report.customer.pattern-only')]),
    paragraph(t('report.customer.inside'), { color: 'quiet', gapPt: 14 }),
  ]
}

/** Who reports, and when. */
function letterhead({ result, texts, logo }: PageInput): Block {
  const { shop, work_order } = result.job
  const lines = [shop.address, [shop.phone, shop.email].filter(Boolean).join(' \u00b7 '), shop.registration]
  const quiet = (text: string) => paragraph(text, { color: 'quiet', gapPt: 0 })
  return beside([
    stack([
      ...(logo ? [logoBlock(logo, say(texts, 'report.customer.logo-alt', { shop: shop.name! }))] : []),
      paragraph(shop.name!, { size: 'medium', face: 'semibold', color: 'ink', gapPt: 0 }),
      ...lines.filter((line) => line !== undefined && line !== '').map((line) => quiet(line!)),
    ]),
    stack([
      ...given([
        [say(texts, 'report.work-order'), work_order],
        [say(texts, 'report.revision'), revisionWords(texts, result)],
        [say(texts, 'report.customer.reported'), dateWords(texts, reportDate(result))],
        [say(texts, 'report.customer.for'), result.job.customer?.name],
      ]).map(({ name, value }) => quiet(pair(texts, name, value))),
    ]),
  ])
}

function vehicleLine({ result, texts }: PageInput): string {
  const { vehicle } = result.job
  const odometer =
    vehicle.odometer && quantity(texts, vehicle.odometer.value, { unit: vehicle.odometer.unit, decimals: 0 })
  const unit = vehicle.unit_number && say(texts, 'report.customer.unit', { unit: vehicle.unit_number })
  return [vehicleWords(vehicle), vehicle.plate, unit, odometer].filter(Boolean).join(' \u00b7 ')
}

/** Cylinders that burn differently from earlier visits though no limit is reached: what is out of order stands above. */
function changedSentences(input: PageInput): string[] {
  const { result, texts } = input
  const open = new Set(
    result.conclusion.findings.filter((f) => f.order === 'out of order').flatMap((f) => f.where.cylinders),
  )
  const cylinders = changedCylinders(input).filter((c) => !open.has(c))
  return cylinders.length === 0
    ? []
    : [say(texts, 'report.customer.history-changed', { cylinders: series(texts, cylinders.map(String)) })]
}

/** What a person overrules: the first few, since the page is one. */
function overruledSentences(input: PageInput): string[] {
  const all = overruled(input)
  const count = all.length - MOST_OVERRULED
  return count <= 0
    ? all
    : [
        ...all.slice(0, MOST_OVERRULED),
        say(input.texts, 'report.customer.review-more', {
          count,
          title: say(input.texts, 'report.review.title'),
        }),
      ]
}

function doneSentences({ result, texts }: PageInput): string[] {
  const { correction } = result.job
  if (correction) return [say(texts, 'report.customer.quoted', { words: correction })]
  if (result.repair.work.length > 0)
    return [say(texts, 'report.customer.work', { work: series(texts, result.repair.work) })]
  return [say(texts, 'report.customer.no-work')]
}

const DRIVING = {
  fault: 'report.driving.fault',
  suspected: 'report.driving.suspected',
  'not known': 'report.driving.not-known',
  'in order': 'report.driving.in-order',
} as const satisfies Record<Result['conclusion']['now']['class'], WordKey>

/** Whether the vehicle may be driven as it is: the dangers found, else what its state lets be said; and what nobody looked at. */
function drivingSentences({ result: { conclusion }, texts }: PageInput): string[] {
  const dangers = conclusion.page_one.driving.map(({ text }) => text)
  return [
    ...(dangers.length > 0 ? dangers : [say(texts, DRIVING[conclusion.now.class])]),
    say(texts, 'report.driving.not-looked-at'),
  ]
}

/** Steps that are a repair themselves, and tell of its time. */
const REPAIRS: ReadonlySet<string> = new Set(['repair-and-capture', 'repair-both'])

/** The next step with its minutes; how long what follows takes, or when to come back, which no job records. */
function nextSentences({ result: { next_test: next, conclusion }, texts }: PageInput): string[] {
  if (!next)
    return [...conclusion.page_one.next.map(({ text }) => text), say(texts, 'report.customer.no-date')]
  return REPAIRS.has(next.id)
    ? [next.says.text]
    : [next.says.text, say(texts, 'report.customer.no-repair-time')]
}

/** How many results speak for and against the cause named first: the next page names them. */
function restsOn({ result: { causes, conclusion }, texts }: PageInput): string[] {
  const [first] = causes
  return first === undefined || conclusion.faults.length === 0
    ? []
    : [say(texts, 'report.customer.rests', { for: first.for.length, against: first.against.length })]
}
