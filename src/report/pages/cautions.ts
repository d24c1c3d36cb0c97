import { DANGERS, type Danger } from '../../job/dangers.ts'
import type { WordKey } from '../../texts/messages.ts'
import { sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import { callout } from '../blocks/callout.ts'
import { paragraph } from '../blocks/paragraph.ts'
import type { PageInput, Section } from './page-input.ts'

const CAUTIONS: Readonly<Record<Danger, { title: WordKey; says: WordKey }>> = {
  spray: { title: 'report.cautions.spray-title', says: 'report.cautions.spray' },
  vapour: { title: 'report.cautions.vapour-title', says: 'report.cautions.vapour' },
  'high-voltage': { title: 'report.cautions.high-voltage-title', says: 'report.cautions.high-voltage' },
  exhaust: { title: 'report.cautions.exhaust-title', says: 'report.cautions.exhaust' },
  moving: { title: 'report.cautions.moving-title', says: 'report.cautions.moving' },
  hot: { title: 'report.cautions.hot-title', says: 'report.cautions.hot' },
}

export const CAUTION_TITLES: Readonly<Record<string, WordKey>> = Object.fromEntries(
  Object.entries(CAUTIONS).map(([danger, { title }]) => [danger, title]),
)

/** Cautions: they say why care is needed and give nobody leave to do the work. */
export function cautions({ texts }: PageInput): Section {
  const t = sayer(texts)
  const caution = (danger: Danger) => callout(t(CAUTIONS[danger].title), t(CAUTIONS[danger].says))
  return {
    title: t('report.cautions.title'),
    level: 2,
    blocks: [
      paragraph(t('report.cautions.precedence'), { keepWithNext: true }),
      ...[0, 2, 4].map((i) => beside(DANGERS.slice(i, i + 2).map(caution), { keepWithNext: i === 4 })),
      paragraph(t('report.cautions.sources'), { color: 'quiet' }),
    ],
  }
}
