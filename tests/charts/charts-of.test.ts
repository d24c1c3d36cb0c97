import { describe, expect, test } from 'vitest'
import { compileView } from '../../src/charts/compile-view.ts'
import { drawingSpec, text } from '../../src/charts/drawing.ts'
import { sizeOf } from '../../src/charts/laid-chart.ts'
import { FULL_WIDTH_PT } from '../../src/charts/theme.ts'
import { JOBS, plansOf } from './chart-jobs.ts'
import { collisions, drawnTexts } from './drawn-items.ts'

describe.each(JOBS)('%s', (_, job) => {
  const plans = plansOf(job)

  test('every chart has a name of its own, a title, a description and a place', () => {
    expect(new Set(plans.map((p) => p.id)).size).toBe(plans.length)
    expect(plans.every((p) => /^[a-z0-9-]+$/.test(p.id) && p.title !== '' && p.alt.endsWith('.'))).toBe(true)
    expect(plans.filter((p) => p.place === 'customer').map((p) => p.id)).toEqual([
      'customer',
      'engine-from-above',
    ])
  })

  test('all charts lay out without a warning, no wider than the page, within their edges, no text upon another', async () => {
    for (const plan of plans) {
      const view = await compileView(plan.spec)
      const size = sizeOf(view)
      expect([plan.id, size.widthPt <= FULL_WIDTH_PT + 8]).toEqual([plan.id, true])
      const texts = drawnTexts(view)
      const outside = texts.filter(
        (t) => t.x1 < -0.5 || t.y1 < -1.6 || t.x2 > size.widthPt + 0.5 || t.y2 > size.heightPt + 1.6,
      )
      expect([plan.id, outside.map((t) => t.text)]).toEqual([plan.id, []])
      expect([plan.id, collisions(texts)]).toEqual([plan.id, []])
      view.finalize()
    }
  })
})

test('charts that have nothing to draw are left out', () => {
  const ids = plansOf(JOBS[2]![1]).map((p) => p.id)
  expect(ids.some((id) => id.startsWith('before-after') || id.startsWith('speed-trace'))).toBe(false)
  expect(ids).toContain('causes')
  expect(plansOf(JOBS[1]![1]).map((p) => p.id)).not.toContain('causes')
})

test('the measure of collisions and edges finds what it should', async () => {
  const row = (words: string, x: number) => text('probe', words, { x, y: 20 })
  const spec = drawingSpec({
    widthPt: 100,
    heightPt: 40,
    bands: [],
    rules: [],
    paths: [],
    symbols: [],
    texts: [row('first words', 10), row('second words', 30), row('far out', 90)],
  })
  const view = await compileView(spec)
  const found = drawnTexts(view)
  expect(found.map((t) => t.text)).toEqual(['first words', 'second words', 'far out'])
  expect(collisions(found)).toEqual(['first words / second words'])
  expect(found.filter((t) => t.x2 > 100).map((t) => t.text)).toEqual(['far out'])
  view.finalize()
})
