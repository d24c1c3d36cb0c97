import { writeFileSync } from 'node:fs'
import { jobJsonSchemaText, shopJsonSchemaText } from '../job/json-schema.ts'
import { resultJsonSchemaText } from '../records/result-json-schema.ts'

// `npm run schemas`: rewrites the published JSON Schemas from the schemas in the code. Tests hold the two equal.
const templates = new URL('../../templates/', import.meta.url)
writeFileSync(new URL('job.schema.json', templates), jobJsonSchemaText())
writeFileSync(new URL('shop.schema.json', templates), shopJsonSchemaText())
writeFileSync(new URL('result.schema.json', templates), resultJsonSchemaText())
