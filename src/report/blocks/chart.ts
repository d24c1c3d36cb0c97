import type { ChartPlan } from '../../charts/chart-plan.ts'
import { PdfContext2D } from '../pdf/canvas-context.ts'
import { compileView } from '../../charts/compile-view.ts'
import { figure } from './figure.ts'
import type { Block } from './block.ts'

/** Size of a laid-out view; Vega tells it nowhere else. */
interface SizedView { _viewWidth: number; _viewHeight: number; _origin: readonly [number, number] }

/** A chart drawn by Vega straight into the page, as vectors. */
export function chart(plan: ChartPlan, look: { floats?: boolean } = {}): Block {
  return figure({
    widthPt: plan.widthPt, heightPt: plan.heightPt, alt: plan.alt, caption: plan.title, floats: look.floats ?? true,
    async drawInto(pen, box) {
      const view = await compileView(plan.spec)
      const { _viewWidth: width, _viewHeight: height } = view as unknown as SizedView
      const scale = Math.min(box.widthPt / width, box.heightPt / height)
      pen.doc.save()
      const context = new PdfContext2D(pen.doc, pen.typeface, [scale, 0, 0, scale, box.xPt, box.yPt])
      await view.toCanvas(1, { externalContext: context } as never)
      pen.doc.restore()
      view.finalize()
    },
  })
}
