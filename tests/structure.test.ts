import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { loadLimits, loadSources } from '../src/limits/limits.ts'
import { loadTexts, LANGUAGES } from '../src/texts/load-texts.ts'
import { RULES } from '../src/verdicts/rules/index.ts'

const src = fileURLToPath(new URL('../src', import.meta.url))
const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((f) => f.endsWith('.ts') && !f.endsWith('.d.ts'))
  .map((f) => f.split('\\').join('/'))

/** Layers from the ground up; a folder imports only from lines above its own (here: earlier) and from itself. */
const LAYERS: readonly (readonly string[])[] = [
  ['units', 'problems', 'maths', 'pictures'],
  ['texts', 'limits', 'model', 'files'],
  ['seal'],
  ['job'],
  ['capture'],
  ['ignition'],
  ['metrics', 'test-log'],
  ['verdicts'],
  ['conclusion'],
  ['records'],
  ['peek'],
  ['charts'],
  ['report'],
  ['fleet'],
  ['chain'],
  ['prove', 'evidence', 'demo'],
  ['batch', 'fleet-run'],
  ['cli'],
]
const layerOf = (file: string) => LAYERS.findIndex((line) => line.includes(file.split('/')[0]!))

/** Imports of a file as paths below src/, type imports included. */
function importsOf(file: string): string[] {
  const text = readFileSync(join(src, file), 'utf8')
  return [...text.matchAll(/(?:from|import\()\s*'(\.[^']+)'/g)].map((m) =>
    relative(src, join(src, dirname(file), m[1]!))
      .split('\\')
      .join('/'),
  )
}

describe('the house', () => {
  test('every file lies in a known layer', () => {
    expect(files.filter((f) => f.includes('/') && layerOf(f) < 0)).toEqual([])
    expect(files.filter((f) => !f.includes('/'))).toEqual([])
  })

  test('imports run one way, layer by layer', () => {
    const wrong = files.flatMap((file) =>
      importsOf(file)
        .filter((target) => target.split('/')[0] !== file.split('/')[0] && layerOf(target) >= layerOf(file))
        .map((target) => `${file} -> ${target}`),
    )
    expect(wrong).toEqual([])
  })

  test('nothing reaches for files outside the house', () => {
    const house = fileURLToPath(new URL('..', import.meta.url))
    const wrong = ['src', 'tests', '.ci'].flatMap((room) =>
      readdirSync(join(house, room), { recursive: true, encoding: 'utf8' })
        .filter((file) => /\.(ts|mjs|js)$/.test(file))
        .flatMap((file) =>
          [...readFileSync(join(house, room, file), 'utf8').matchAll(/'((?:\.\.\/)+[^']*)'/g)]
            .filter((m) => relative(house, join(house, room, dirname(file), m[1]!)).startsWith('..'))
            .map((m) => `${room}/${file}: ${m[1]}`),
        ),
    )
    expect(wrong).toEqual([])
  })

  test('no circles between files', () => {
    const graph = new Map(files.map((f) => [f, importsOf(f)]))
    const done = new Set<string>()
    const circles: string[] = []
    const walk = (file: string, trail: readonly string[]) => {
      if (trail.includes(file)) circles.push([...trail.slice(trail.indexOf(file)), file].join(' -> '))
      if (done.has(file) || trail.includes(file)) return
      for (const next of graph.get(file) ?? []) walk(next, [...trail, file])
      done.add(file)
    }
    for (const file of files) walk(file, [])
    expect(circles).toEqual([])
  })

  test('no network, and files or clocks only at the edges', () => {
    const edges = ['limits', 'texts', 'files', 'job', 'capture', 'chain', 'prove', 'evidence', 'demo']
    edges.push('batch', 'fleet-run', 'cli')
    const wrong = files.flatMap((file) => {
      const text = readFileSync(join(src, file), 'utf8')
      const found: string[] = []
      if (/from 'node:(http|https|net|dgram|dns|tls|http2)'|\bfetch\(/.test(text)) found.push('network')
      if (!edges.includes(file.split('/')[0]!) && /from 'node:(fs|child_process|os)/.test(text))
        found.push('files')
      if (/Math\.random\(|toLocale|Intl\./.test(text)) found.push('randomness or locale')
      if (
        file.split('/')[0] !== 'cli' &&
        /Date\.now\(|new Date\(\)|performance\.now\(|process\.hrtime/.test(text)
      )
        found.push('clock')
      return found.map((f) => `${file}: ${f}`)
    })
    expect(wrong).toEqual([])
  })
})

describe('every rule', () => {
  const limits = loadLimits()
  const sources = loadSources()
  test.each(RULES.map((r) => [r.id, r] as const))(
    '%s names limits, sources and texts that exist',
    (_, rule) => {
      for (const key of rule.limits) expect(limits[key], key).toBeDefined()
      for (const key of rule.sources) expect(sources[key], key).toBeDefined()
      for (const language of LANGUAGES)
        expect(loadTexts(language).templates[rule.says], rule.says).toBeDefined()
    },
  )

  test('every limit has an origin that is listed', () => {
    const unknown = Object.entries(limits)
      .filter(([, l]) => !(l.origin in sources))
      .map(([key, l]) => `${key}: ${l.origin}`)
    expect(unknown).toEqual([])
  })
})
