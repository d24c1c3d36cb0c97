import { DANGERS, DANGER_WORDS, type Danger } from '../../job/dangers.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { callout } from '../blocks/callout.ts'
import { paragraph } from '../blocks/paragraph.ts'
import type { PageInput, Section } from './page-input.ts'

/** The caution against one danger, in full. */
export const cautionBlock = (texts: PageInput['texts'], danger: Danger): Block =>
  callout(say(texts, DANGER_WORDS[danger].title), say(texts, DANGER_WORDS[danger].says))

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
