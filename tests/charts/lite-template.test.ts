import type { Spec } from 'vega'
import type { TopLevelSpec } from 'vega-lite'
import { expect, test } from 'vitest'
import { VEGA_LITE_SCHEMA } from '../../src/charts/chart-plan.ts'
import { compileLite, toVega } from '../../src/charts/engine.ts'
import { part, templateOf } from '../../src/charts/lite-template.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { JOBS, plansOf } from './chart-jobs.ts'

const liteOf = (plans: ReturnType<typeof plansOf>): TopLevelSpec[] =>
  plans.map((plan) => plan.spec).filter((spec): spec is TopLevelSpec => spec.$schema === VEGA_LITE_SCHEMA)
const german = { ...loadTexts('de') }
const everySpec = [
  ...JOBS.flatMap(([, job]) => liteOf(plansOf(job))),
  ...liteOf(plansOf({ causes: false }, german)),
]

test('every spec, filled into its kind, is what the compiler makes of it', () => {
  expect(everySpec.length).toBeGreaterThan(10)
  for (const spec of everySpec) expect(JSON.stringify(toVega(spec))).toBe(JSON.stringify(compileLite(spec)))
})

test('charts that differ in data, sizes, domains and words are of one kind', () => {
  const kinds = new Set(everySpec.map((spec) => JSON.stringify(part(spec).kind)))
  expect(kinds.size).toBeLessThan(everySpec.length * 0.6)
  for (const spec of everySpec)
    expect(templateOf(compileLite(part(spec).kind), part(spec).values.length)).toBeDefined()
})

test('a compiled spec in which a value was reckoned with, hidden or lost is no template', () => {
  const { kind, values } = part({
    $schema: VEGA_LITE_SCHEMA,
    width: 300,
    title: 'words',
    data: { values: [{ a: 1 }] },
    mark: 'point',
    encoding: {},
  })
  const compiled = compileLite(kind) as unknown as Record<string, unknown>
  const changed = (change: object) => templateOf({ ...compiled, ...change } as unknown as Spec, values.length)
  expect(changed({})?.(values)).toMatchObject({ width: 300 })
  const width = compiled['width'] as number
  expect(changed({ height: width + 0.5 })).toBeUndefined()
  expect(changed({ height: width + 300 })).toBeUndefined()
  expect(changed({ signals: [{ name: 'half', update: `${width} / 2` }] })).toBeUndefined()
  expect(changed({ width: 5 })).toBeUndefined()
})
