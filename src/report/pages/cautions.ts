import { DANGERS, DANGER_WORDS, type Danger } from '../../job/dangers.ts'
import { say, sayer } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { callout } from '../blocks/callout.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import type { PageInput, Section } from './page-input.ts'

/** The caution against one danger, in full. */
export const cautionBlock = (texts: PageInput['texts'], danger: Danger): Block =>
  callout(say(texts, DANGER_WORDS[danger].title), say(texts, DANGER_WORDS[danger].says))

const COLUMNS = 3

/** Dangers column by column, as many in each as make the longest column shortest. */
function inColumns(texts: PageInput['texts']): (readonly Danger[])[] {
  const lengths = DANGERS.map((danger) => say(texts, DANGER_WORDS[danger].says).length + TITLE_SIGNS)
  const lengthOf = (from: number, to: number) => lengths.slice(from, to).reduce((sum, each) => sum + each, 0)
  let best = { longest: Infinity, ends: [0, 0] }
  for (let one = 1; one < DANGERS.length; one++)
    for (let two = one; two < DANGERS.length; two++) {
      const longest = Math.max(lengthOf(0, one), lengthOf(one, two), lengthOf(two, DANGERS.length))
      if (longest < best.longest) best = { longest, ends: [one, two] }
    }
  return Array.from({ length: COLUMNS }, (_, i) => DANGERS.slice(best.ends[i - 1] ?? 0, best.ends[i]))
}

/** A caution's title and white, in signs of its text. */
const TITLE_SIGNS = 90

/** Cautions: they say why care is needed and give nobody leave to do the work. */
export function cautions({ texts }: PageInput): Section {
  const t = sayer(texts)
  return {
    title: t('report.cautions.title'),
    level: 2,
    blocks: [
      paragraph([t('report.cautions.precedence'), t('report.cautions.sources')].join(' '), {
        keepWithNext: true,
      }),
      beside(inColumns(texts).map((column) => stack(column.map((danger) => cautionBlock(texts, danger))))),
    ],
  }
}
