import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { inspectJob } from '../../src/job/inspect-job.ts'

/**
 * Small job folders, each wrong in one way (or right, though it looks wrong). `expected.txt` of a folder lists what
 * has to be found, one line a problem: severity, code, file:line:column. A new case is a new folder, nothing else.
 */
const ROOT = fileURLToPath(new URL('../jobs/', import.meta.url))
const THEMES = ['keys', 'syntax', 'engine', 'channels', 'frame', 'files', 'log']

describe.each(THEMES)('%s', (theme) => {
  test.each(readdirSync(ROOT + theme))(`${theme}/%s`, async (name) => {
    const folder = `${ROOT}${theme}/${name}`
    const { problems } = await inspectJob(folder)
    const found = problems.map(
      (p) => `${p.severity} ${p.code} ${[p.file, p.line, p.column].filter((x) => x !== undefined).join(':')}`,
    )
    expect(found).toEqual(
      readFileSync(`${folder}/expected.txt`, 'utf8')
        .split('\n')
        .filter((line) => line !== ''),
    )
  })
})
