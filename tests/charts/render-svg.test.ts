import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { SaxesParser } from 'saxes'
import { expect, test } from 'vitest'
import { renderSvg } from '../../src/charts/render-svg.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { JOBS, plansOf } from './chart-jobs.ts'

const plans = plansOf(JOBS[2]![1])

interface Tag {
  name: string
  attributes: Record<string, string>
  text: string
}
/** All elements, by a strict XML parser: not well-formed throws. */
function tagsOf(svg: string): Tag[] {
  const tags: Tag[] = []
  const open: Tag[] = []
  const parser = new SaxesParser()
  parser.on('error', (error) => {
    throw error
  })
  parser.on('opentag', (node) => {
    open.push({ name: node.name, attributes: node.attributes as Record<string, string>, text: '' })
    tags.push(open.at(-1)!)
  })
  parser.on('text', (words) => {
    if (open.length > 0) open.at(-1)!.text += words
  })
  parser.on('closetag', () => {
    open.pop()
  })
  parser.write(svg).close()
  return tags
}

test('each chart is a well-formed file of its own with size, title, description and fallback fonts', async () => {
  for (const plan of plans) {
    const tags = tagsOf(await renderSvg(plan.spec))
    const [root] = tags
    const [, , width, height] = root!.attributes.viewBox!.split(' ').map(Number)
    expect(root!.attributes).toMatchObject({ width: `${width}pt`, height: `${height}pt`, role: 'img' })
    expect(width).toBeGreaterThanOrEqual(plan.widthPt)
    expect(height).toBeGreaterThanOrEqual(plan.heightPt)
    expect(tags.find((t) => t.name === 'title')!.text).toBe(plan.title)
    expect(tags.find((t) => t.name === 'desc')!.text).toBe(plan.alt)
    const families = new Set(tags.filter((t) => t.name === 'text').map((t) => t.attributes['font-family']))
    expect([...families].every((f) => f?.startsWith("'Source Sans 3'") && f.endsWith('sans-serif'))).toBe(
      true,
    )
    expect(tags.some((t) => t.attributes['stroke-dasharray'] === '')).toBe(false)
    expect(tags.some((t) => ['image', 'foreignObject', 'script', 'style'].includes(t.name))).toBe(false)
  }
})

test('signs that mean something in XML are escaped', async () => {
  const plan = plans[0]!
  const svg = await renderSvg({ ...plan.spec, usermeta: { title: 'A & B <"C">' } } as typeof plan.spec)
  expect(tagsOf(svg).find((t) => t.name === 'title')!.text).toBe('A & B <"C">')
})

const digest = async () => {
  const hash = createHash('sha256')
  for (const plan of plans) hash.update(await renderSvg(plan.spec))
  return hash.digest('hex')
}

test('the same bytes again, and in another process with another time zone and locale', async () => {
  const first = await digest()
  expect(await digest()).toBe(first)
  const script = JSON.stringify(fileURLToPath(new URL('./print-digest.ts', import.meta.url)))
  const run = `import { runnerImport } from 'vite'; await runnerImport(${script}, { configFile: false, logLevel: 'error' })`
  const env = { ...process.env, TZ: 'Pacific/Apia', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' }
  const said = execFileSync(process.execPath, ['--input-type=module', '-e', run], {
    env,
    encoding: 'utf8',
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
  })
  expect(said.trim()).toBe(first)
})

test('numbers on the axes follow the language', async () => {
  const german = { ...loadTexts('en'), language: 'de' }
  const small = { stages: ['before'] as const, absent: [] }
  const [axis] = [plansOf({ small, drawn: { rises: {} } }, german).find((p) => p.id.startsWith('late-rise'))!]
  const words = tagsOf(await renderSvg(axis.spec))
    .filter((t) => t.name === 'text')
    .map((t) => t.text)
  expect(words).toContain('+84,0\u00a0%')
  expect(words).toContain('\u221220')
  expect(words.some((w) => /\d\.\d/.test(w))).toBe(false)
})
