import type { ChartPlan } from '../../charts/chart-plan.ts'
import { PdfContext2D } from '../pdf/canvas-context.ts'
import { compileView } from '../../charts/compile-view.ts'
import { sizeOf } from '../../charts/laid-chart.ts'
import { figure } from './figure.ts'
import type { Block } from './block.ts'

/** Letters of 8 pt shrink to 6.6 pt at least: still read with ease on paper. */
const LEAST_SCALE = 0.82

/** A chart drawn by Vega straight into the page, as vectors. */
export function chart(plan: ChartPlan, look: { floats?: boolean } = {}): Block {
  return figure({
    widthPt: plan.widthPt,
    heightPt: plan.heightPt,
    alt: plan.alt,
    caption: plan.title,
    floats: look.floats ?? true,
    leastScale: LEAST_SCALE,
    async drawInto(pen, box) {
      const view = plan.view ?? (await compileView(plan.spec))
      const size = sizeOf(view)
      const scale = Math.min(box.widthPt / size.widthPt, box.heightPt / size.heightPt)
      pen.doc.save()
      const context = new PdfContext2D(pen.doc, pen.typeface, [scale, 0, 0, scale, box.xPt, box.yPt])
      await view.toCanvas(1, { externalContext: context } as never)
      pen.doc.restore()
      if (!plan.view) view.finalize()
    },
  })
}
