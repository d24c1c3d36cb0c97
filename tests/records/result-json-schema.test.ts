import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { resultJsonSchemaText } from '../../src/records/result-json-schema.ts'

test('the published schema is what the code gives (npm run schemas rewrites it)', () => {
  expect(readFileSync(new URL('../../templates/result.schema.json', import.meta.url), 'utf8')).toBe(
    resultJsonSchemaText(),
  )
})
