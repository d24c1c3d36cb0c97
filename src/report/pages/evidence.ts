import { formatNumber } from '../../texts/format-quantity.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { signatureField } from '../blocks/signature-field.ts'
import { photo } from '../blocks/photo.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { dateWords } from './words.ts'

/** Every input file with its SHA-256, so that anybody can show that the data were not touched. */
export function evidence(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  return {
    title: t('report.evidence.title'),
    level: 2,
    blocks: [
      ...signing(input),
      paragraph(say(texts, 'report.evidence.intro', { version: result.program.version }), {
        keepWithNext: true,
      }),
      table({
        caption: t('report.evidence.title'),
        dense: true,
        size: 'fine',
        columns: [
          { title: t('report.evidence.file'), grow: 1 },
          { title: t('report.evidence.bytes'), grow: 0, align: 'right' },
          { title: t('report.evidence.sha256'), grow: 0 },
        ],
        rows: [...result.inputs, ...handedIn(input)].map(({ file, bytes, sha256 }) => [
          file,
          formatNumber(bytes, 0, texts.language),
          sha256,
        ]),
      }),
    ],
  }
}

const HANDED_IN = {
  shop: 'report.evidence.shop-file',
  logo: 'report.evidence.logo-file',
  history: 'report.evidence.history-file',
} as const

/** Files that came with the call, each said to be what it is. */
const handedIn = ({ result, texts }: PageInput) =>
  (result.handed_in ?? []).map(({ what, file, ...digest }) => ({
    file: say(texts, HANDED_IN[what], { file }),
    ...digest,
  }))

/** Whether the report is signed, with which key, and what that shows and does not show. */
function signing({ result, texts, slotBytes }: PageInput): Block[] {
  const { signing_key: key, certificate } = result.program
  const words =
    key === undefined
      ? say(texts, 'report.evidence.unsigned')
      : say(texts, 'report.evidence.signed', { fingerprint: key.match(/.{8}/g)!.join(' ') })
  const copy =
    result.redacted === undefined
      ? []
      : [paragraph(say(texts, 'report.evidence.redacted', { fields: result.redacted.join(', ') }))]
  return [
    ...(key === undefined && copy.length === 0 ? [] : [heading(3, say(texts, 'report.evidence.signing'))]),
    ...copy,
    paragraph(words),
    ...(certificate && slotBytes ? certified(certificate, { texts, slotBytes }) : []),
  ]
}

/** The box readers show as the signature, and what “unknown issuer” in such a reader means. */
function certified(
  { sha256, name, signed_at: date }: NonNullable<PageInput['result']['program']['certificate']>,
  { texts, slotBytes }: { texts: PageInput['texts']; slotBytes: number },
): Block[] {
  const args = { name, date: dateWords(texts, date), fingerprint: sha256.match(/.{8}/g)!.join(' ') }
  return [
    signatureField({
      words: say(texts, 'report.evidence.certified', args),
      tooltip: say(texts, 'report.evidence.certified-tooltip', { name, date: args.date }),
      name,
      date,
      slotBytes,
    }),
    paragraph(say(texts, 'report.evidence.certified-unknown')),
  ]
}

const STAGES = { before: 'report.stage.before', after: 'report.stage.after' } as const

/** Photos with what they show, two beside each other. */
export function photoRows({ result, texts, photos }: PageInput): Block[] {
  const blocks = result.job.photos.map(({ file, caption, stage }) => {
    const words = [caption?.trim() || file, stage === null ? '' : wordOf(texts, STAGES, stage)]
      .filter(Boolean)
      .join(' \u2013 ')
    return photo({
      data: photos.get(file),
      caption: words,
      alt: say(texts, 'report.evidence.photo-alt', { words }),
      unprintable: say(texts, 'report.evidence.unprintable', { file }),
    })
  })
  return Array.from({ length: Math.ceil(blocks.length / 2) }, (_, i) =>
    beside(blocks.slice(2 * i, 2 * i + 2), { columns: 2 }),
  )
}
