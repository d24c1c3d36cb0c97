/**
 * Writes the types of what stands in templates/: src/texts/catalogue.ts (the key of every sentence with the arguments it
 * needs) and src/limits/keys.ts (keys of limits, sources and causes). Plain JavaScript, because the program cannot be compiled
 * before they are there.
 *
 *   npm run words            writes both anew
 *   npm run words -- --check  only says whether they are current
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parse } from 'yaml'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const template = (name) => parse(readFileSync(join(root, 'templates', name), 'utf8'))

const HEAD = (from) => `// Made by src/write-catalogue.mjs from ${from}. Not to be edited: npm run words\n`

/** A placeholder with a format takes a figure, one without anything that can stand in a sentence. */
function argumentsOf(sentence) {
  const kinds = new Map()
  for (const [, name, format] of sentence.matchAll(/\{(\w+)(?::([\w.]+))?\}/g)) {
    const ofFigure = format !== undefined && format !== 'whole'
    if (ofFigure || !kinds.has(name)) kinds.set(name, ofFigure ? 'Figure' : 'Arg')
  }
  return kinds.size === 0
    ? 'NoArgs'
    : `{ ${[...kinds].map(([name, kind]) => `${name}: ${kind}`).join('; ')} }`
}

const quoted = (key) => (/^[a-z]\w*$/i.test(key) ? key : `'${key}'`)

const catalogue = () =>
  `${HEAD('templates/texts/en.yaml')}import type { Arg, Figure, NoArgs } from './args.ts'

/** Every sentence of the program: its key and the arguments it needs. */
export interface Catalogue {
${Object.entries(template('texts/en.yaml'))
  .map(([key, sentence]) => `  ${quoted(key)}: ${argumentsOf(sentence)}`)
  .join('\n')}
}

export type TextKey = keyof Catalogue
`

const union = (name, meaning, keys) =>
  `/** ${meaning} */\nexport type ${name} =\n${keys.map((key) => `  | '${key}'`).join('\n')}\n`

const causes = template('causes.yaml')

const keys = () =>
  `${HEAD('templates/limits.yaml, reading-limits.yaml, sources.yaml and causes.yaml')}
${union('LimitKey', 'A limit that a verdict depends on.', Object.keys(template('limits.yaml')))}
${union('ReadingLimitKey', 'A limit of how much is read.', Object.keys(template('reading-limits.yaml')))}
${union('SourceKey', 'A source that a limit or rule names.', Object.keys(template('sources.yaml')))}
${union('CauseId', 'A cause of templates/causes.yaml.', Object.keys(causes.causes))}
${union('EvidenceKind', 'A kind of evidence there.', Object.keys(causes.evidence))}
${union('NextTestId', 'A test there that may be advised next.', Object.keys(causes.tests))}
${union('FollowUpId', 'What follows there once a cause stands clear.', Object.keys(causes.follow_ups))}`

const files = { 'src/texts/catalogue.ts': catalogue(), 'src/limits/keys.ts': keys() }
const stale = Object.entries(files).filter(([file, text]) => {
  try {
    return readFileSync(join(root, file), 'utf8') !== text
  } catch {
    return true
  }
})
if (process.argv.includes('--check')) {
  if (stale.length > 0) {
    console.error(`not current: ${stale.map(([file]) => file).join(', ')}; run npm run words`)
    process.exitCode = 1
  }
} else for (const [file, text] of stale) writeFileSync(join(root, file), text)
