import { writeFileSync } from 'node:fs'
import { jobJsonSchemaText } from './json-schema.ts'

// Run after a build, whenever the schema has changed: node dist/job/write-json-schema.js
writeFileSync(new URL('../../templates/job.schema.json', import.meta.url), jobJsonSchemaText())
