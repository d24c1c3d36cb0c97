import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { Ajv, type ValidateFunction } from 'ajv'
import { expect, test } from 'vitest'
import { VEGA_LITE_SCHEMA } from '../../src/charts/chart-plan.ts'
import { JOBS, plansOf } from './chart-jobs.ts'

const require = createRequire(import.meta.url)
const ajv = new Ajv({ strict: false, validateFormats: false, logger: false })
const schemaOf = (path: string): ValidateFunction =>
  ajv.compile(JSON.parse(readFileSync(require.resolve(path), 'utf8')) as object)

/** Outside truth: the JSON Schemas that Vega 6 and Vega-Lite 6 publish with their packages. */
test('every spec is valid by the published schemas of Vega and Vega-Lite', () => {
  const lite = schemaOf('vega-lite/vega-lite-schema.json')
  const plain = schemaOf('vega/vega-schema.json')
  const kinds = new Map([...plansOf(JOBS[2]![1]), ...plansOf(JOBS[3]![1])].map((plan) => [plan.id, plan]))
  for (const { id, spec } of kinds.values()) {
    const check = spec.$schema === VEGA_LITE_SCHEMA ? lite : plain
    const json = JSON.parse(JSON.stringify(spec)) as Record<string, unknown>
    expect([id, check(json), check.errors?.slice(0, 3)]).toEqual([id, true, undefined])
    expect([id, check({ ...json, padding: 'wide' })]).toEqual([id, false])
  }
})
