import { DANGERS, type Danger } from '../../job/dangers.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { callout } from '../blocks/callout.ts'
import { paragraph } from '../blocks/paragraph.ts'
import type { PageInput, Section } from './page-input.ts'

const CAUTIONS: Readonly<Record<Danger, { title: WordKey; says: WordKey }>> = {
  spray: { title: 'report.cautions.spray-title', says: 'report.cautions.spray' },
  vapour: { title: 'report.cautions.vapour-title', says: 'report.cautions.vapour' },
  'high-voltage': { title: 'report.cautions.high-voltage-title', says: 'report.cautions.high-voltage' },
  exhaust: { title: 'report.cautions.exhaust-title', says: 'report.cautions.exhaust' },
  moving: { title: 'report.cautions.moving-title', says: 'report.cautions.moving' },
  'compressed-air': { title: 'report.cautions.compressed-air-title', says: 'report.cautions.compressed-air' },
  hot: { title: 'report.cautions.hot-title', says: 'report.cautions.hot' },
}

/** The caution against one danger, in full. */
export const cautionBlock = (texts: PageInput['texts'], danger: Danger): Block =>
  callout(say(texts, CAUTIONS[danger].title), say(texts, CAUTIONS[danger].says))

const COLUMNS = 3

/** Cautions: they say why care is needed and give nobody leave to do the work. */
export function cautions({ texts }: PageInput): Section {
  const t = sayer(texts)
  const rows = Array.from({ length: Math.ceil(DANGERS.length / COLUMNS) }, (_, i) =>
    DANGERS.slice(COLUMNS * i, COLUMNS * (i + 1)),
  )
  return {
    title: t('report.cautions.title'),
    level: 2,
    blocks: [
      paragraph(t('report.cautions.precedence'), { keepWithNext: true }),
      ...rows.map((row, i) =>
        beside(
          row.map((danger) => cautionBlock(texts, danger)),
          { columns: COLUMNS, keepWithNext: i === rows.length - 1 },
        ),
      ),
      paragraph(t('report.cautions.sources'), { color: 'quiet' }),
    ],
  }
}
