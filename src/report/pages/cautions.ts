import { say } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import { callout } from '../blocks/callout.ts'
import { paragraph } from '../blocks/paragraph.ts'
import type { PageInput, Section } from './page-input.ts'

/** Dangers of the work described here, in order of harm. Facts and their sources stand with the texts. */
const DANGERS = ['spray', 'vapour', 'high-voltage', 'exhaust', 'moving', 'hot'] as const

/** Cautions: they say why care is needed and give nobody leave to do the work. */
export function cautions({ texts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.cautions.${key}`)
  const caution = (danger: string) => callout(t(`${danger}-title`), t(danger))
  return {
    title: t('title'),
    level: 2,
    blocks: [
      paragraph(t('precedence'), { keepWithNext: true }),
      ...[0, 2, 4].map((i) => beside(DANGERS.slice(i, i + 2).map(caution), { keepWithNext: i === 4 })),
      paragraph(t('sources'), { color: 'quiet' }),
    ],
  }
}
