import { chartsOf } from '../../src/charts/charts-of.ts'
import { compileView } from '../../src/charts/compile-view.ts'
import { svgOfView } from '../../src/charts/render-svg.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { smallResult } from '../charts/small-result.ts'
import { sampleDrawn } from '../support/sample-drawn.ts'

/**
 * Time of all charts of an invented job of six cylinders, before and after, in a warm process:
 * `node tests/bench/run.mjs charts`. Least and median over the rounds, ms: the least is what the work
 * costs, the median adds what else the machine was doing.
 */
const ROUNDS = 25
const texts = loadTexts('en')
const [result, traces] = [smallResult(), sampleDrawn()]

const times: Record<string, number[]> = { specs: [], views: [], svg: [] }
const perChart = new Map<string, number[]>()
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!

const timed = async <T>(into: number[], work: () => T | Promise<T>): Promise<T> => {
  const start = performance.now()
  const done = await work()
  into.push(performance.now() - start)
  return done
}

for (let round = 0; round < ROUNDS; round += 1) {
  const plans = await timed(times.specs!, () => chartsOf(result, traces, texts))
  const [views, svg] = [[] as number[], [] as number[]]
  for (const plan of plans) {
    const view = await timed(views, () => compileView(plan.spec))
    await timed(svg, () => svgOfView(view, plan.spec))
    view.finalize()
    perChart.set(plan.id, [...(perChart.get(plan.id) ?? []), views.at(-1)!])
  }
  times.views!.push(views.reduce((a, b) => a + b))
  times.svg!.push(svg.reduce((a, b) => a + b))
}

const warm = (values: readonly number[]) => {
  const later = values.slice(5)
  return `${Math.min(...later).toFixed(1)} / ${median(later).toFixed(1)}`
}
console.log(`${perChart.size} charts, six cylinders, 40 events each, before and after`)
for (const [id, values] of perChart) console.log(`  view ${warm(values).padStart(13)} ms  ${id}`)
console.log(
  `first round: specs ${times.specs![0]!.toFixed(0)} ms, views ${times.views![0]!.toFixed(0)} ms (loads Vega)`,
)
console.log(
  `warm, least / median: specs ${warm(times.specs!)} ms, views ${warm(times.views!)} ms, SVG text ${warm(times.svg!)} ms`,
)
