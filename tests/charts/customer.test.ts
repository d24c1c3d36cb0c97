import type { View } from 'vega'
import { expect, test } from 'vitest'
import { compileView } from '../../src/charts/compile-view.ts'
import { plansOf, texts } from './chart-jobs.ts'
import { drawnTexts } from './drawn-items.ts'
import type { SmallJob } from './small-result.ts'

type Row = { kind: string; panel: number; x: number; y: number; words?: string; low: number; high: number }

async function picture(small: SmallJob, drawn = {}): Promise<{ rows: Row[]; words: string[]; view: View }> {
  const plan = plansOf({ small, drawn }).find(({ id }) => id === 'customer')!
  const view = await compileView(plan.spec)
  const { values } = (plan.spec as unknown as { data: { values: Row[] } }).data
  return { rows: values, words: drawnTexts(view).map(({ text }) => text), view }
}

test('before stands left of after, each with its arrow, and the band of a healthy line has both edges', async () => {
  const { view, rows, words } = await picture({})
  const heads = drawnTexts(view).filter(({ text }) => /the work: cylinder 5/.test(text))
  expect(heads.map(({ text }) => text.split(':')[0])).toEqual(['Before the work', 'After the work'])
  expect(heads[0]!.x1).toBeLessThan(heads[1]!.x1)
  expect(words).toEqual(
    expect.arrayContaining(['climbs too far', 'stays level', 'spark begins', 'spark ends']),
  )
  const edges = rows.filter(({ kind }) => kind === 'edge')
  expect(new Set(edges.map(({ y }) => y))).toEqual(new Set([80, 120]))
  view.finalize()
})

test('no ringing, no firing line: what is drawn lies within the burn, and only the cylinder pointed out', async () => {
  const { rows, view } = await picture({})
  const line = rows.filter(({ kind, panel }) => kind === 'line' && panel === 0)
  expect(line.length).toBeGreaterThan(20)
  expect(Math.min(...line.map(({ x }) => x))).toBeGreaterThanOrEqual(5)
  expect(Math.max(...line.map(({ x }) => x))).toBeLessThanOrEqual(93)
  expect(Math.max(...line.map(({ y }) => y))).toBeGreaterThan(120)
  view.finalize()
})

test('where no spark burned, the picture says so in place of a line', async () => {
  const { rows, words, view } = await picture({ verdicts: { 2: 'open secondary' }, stages: ['before'] })
  expect(rows.filter(({ kind }) => kind === 'line')).toEqual([])
  expect(words).toContain(texts.templates['chart.customer.no-spark'])
  expect(words.some((word) => word.includes('cylinder 2'))).toBe(true)
  view.finalize()
})
