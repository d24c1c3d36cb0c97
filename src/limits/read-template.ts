import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { sha256 } from '../maths/sha256.ts'

/** Folder of the package's templates, found from this file and never from the working folder. */
export const TEMPLATES = new URL('../../templates/', import.meta.url)
/** What the build parsed beforehand: file name -> SHA-256 of its text and its value. Not there when run from the sources. */
const READY_MADE = new URL('../app/templates.json', import.meta.url)

/** Templates as parsed by the build. */
export type ReadyMade = Readonly<Record<string, { sha256: string; value: unknown }>>

/** Templates that every job reads and that the build parses beforehand. */
const OFTEN_READ = ['limits.yaml', 'reading-limits.yaml', 'sources.yaml', 'causes.yaml'] as const

// Memos of pure functions of what is in the files: the jobs of a process mostly read the same.
const last = new Map<string, { text: string; value: unknown }>()
let readyMade: ReadyMade | undefined

/**
 * A YAML file of templates/, as parsed. Parsing takes ten times as long as reading, so the value comes from the last
 * time or from the build where the text is the very same.
 *
 * @returns a value not to be changed
 * @throws YAMLParseError for a file that is no YAML
 */
export function readTemplate(name: string, folder: URL = TEMPLATES): unknown {
  const text = readFileSync(new URL(name, folder), 'utf8')
  const known = last.get(name)
  if (known?.text === text) return known.value
  readyMade ??= readReadyMade()
  const made = readyMade[name]
  const value = made && made.sha256 === sha256(text) ? made.value : (parse(text) as unknown)
  last.set(name, { text, value })
  return value
}

/** Parses the templates that are read often, for the build to keep. */
export const makeReady = (): ReadyMade =>
  Object.fromEntries(
    OFTEN_READ.map((name) => {
      const text = readFileSync(new URL(name, TEMPLATES), 'utf8')
      return [name, { sha256: sha256(text), value: parse(text) as unknown }]
    }),
  )

function readReadyMade(): ReadyMade {
  try {
    return JSON.parse(readFileSync(READY_MADE, 'utf8')) as ReadyMade
  } catch {
    return {} // run from the sources: every template is parsed when it is read
  }
}
