import type { ChartPlan } from '../../charts/chart-plan.ts'
import { GUTTER_PT } from '../theme.ts'
import { beside } from '../blocks/beside.ts'
import type { Block } from '../blocks/block.ts'
import { chart } from '../blocks/chart.ts'
import { FULL_WIDTH_PT } from '../../charts/theme.ts'

/** Charts below each other; neighbours that are narrow enough to share the page's width stand beside each other. */
export function chartBlocks(plans: readonly ChartPlan[]): Block[] {
  const blocks: Block[] = []
  for (let i = 0; i < plans.length; i++) {
    const [plan, next] = [plans[i]!, plans[i + 1]]
    if (next === undefined || plan.widthPt + next.widthPt + GUTTER_PT > FULL_WIDTH_PT + ROUNDING_PT) {
      blocks.push(chart(plan))
      continue
    }
    const room = FULL_WIDTH_PT - GUTTER_PT
    blocks.push(
      beside(
        [plan, next].map((one) => chart(one, { floats: false })),
        { shares: [plan.widthPt / room, 1 - plan.widthPt / room] },
      ),
    )
    i++
  }
  return blocks
}

const ROUNDING_PT = 0.01
