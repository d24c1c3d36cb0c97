import { fileURLToPath } from 'node:url'
import Papa from 'papaparse'
import { beforeAll, describe, expect, test } from 'vitest'
import { PLAIN } from '../../support/plain-options.ts'
import { runJob } from '../../../src/chain/run-job.ts'
import { DEMO_JOBS } from '../../../src/demo/demo-jobs.ts'
import { resultSchema, type Result } from '../../../src/records/result.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import { allText, openPdf, wordsOf } from '../../support/read-pdf.ts'

const texts = loadTexts('en')

/** Every evidence mark in some words: C1, C1·5, C1·5·12, T3, R1, R1·12.0 s. */
const marksIn = (words: string): Set<string> =>
  new Set(
    [...words.matchAll(/(?<![\w.·])(?:[CT]\d{1,3}(?:·\d+){0,2}|R\d{1,3}(?:·[\d.]+\s?s)?)(?![\w·])/g)].map(
      ([mark]) => mark.replaceAll(/\s/g, ' '),
    ),
  )
const union = (...sets: readonly ReadonlySet<string>[]) => new Set(sets.flatMap((set) => [...set]))
const sorted = (set: Iterable<string>) => [...set].toSorted()

/** The marks of a result's records, by kind. */
function marksOf(result: Result) {
  const plain = (mark: string) => mark.replaceAll(/\s/g, ' ')
  const instants = result.tests.flatMap(({ instant }) => instant ?? []).map(plain)
  return {
    captures: result.captures.map(({ mark }) => mark),
    cylinders: result.cylinders.map(({ mark }) => mark),
    tests: result.tests.map(({ mark }) => mark),
    instants,
    traces: [...new Set(instants.map((instant) => instant.split('·')[0]!))],
  }
}

/** The words of an SVG file, without its drawing: one text element after the other, and what is read to those who do not see it. */
const svgWords = (svg: string) =>
  [...svg.matchAll(/<(text|title|desc)\b[^>]*>([^]*?)<\/\1>/g)]
    .map(([, , inner]) => inner!.replaceAll(/<[^>]*>/g, ' '))
    .join('\n')

describe.each(DEMO_JOBS.map(({ folder }) => folder))('evidence marks of %s', (folder) => {
  let result: Result
  let charts: ReadonlyMap<string, string>
  let tables: Set<string>
  let printed: Set<string>
  let events: Record<string, string>[]

  beforeAll(async () => {
    const path = fileURLToPath(new URL(`../../../inputs/${folder}`, import.meta.url))
    const { files } = await runJob(path, PLAIN, texts)
    result = resultSchema.parse(JSON.parse(String(files.get('result.json'))))
    charts = new Map(
      [...files]
        .filter(([name]) => name.endsWith('.svg'))
        .map(([name, svg]) => [name, svgWords(String(svg))]),
    )
    events = Papa.parse<Record<string, string>>(String(files.get('events.csv')), {
      header: true,
      skipEmptyLines: true,
    }).data
    const doc = await openPdf(Buffer.from(files.get('report.pdf')!))
    const cells = await Promise.all(
      Array.from({ length: doc.numPages }, async (_, i) => [
        ...(await wordsOf(doc, i + 1, 'TD')),
        ...(await wordsOf(doc, i + 1, 'TH')),
      ]),
    )
    tables = marksIn(cells.flat().join('\n'))
    // The passage that explains the marks gives examples, which are of no job.
    const explained = texts.templates['report.method.marks']!.replaceAll(/\s+/g, ' ')
    const whole = (await allText(doc)).replaceAll(/\s+/g, ' ')
    expect(whole).toContain(explained)
    printed = marksIn(whole.replace(explained, ''))
  })

  test('in result.json each stands once, and leads to a record that is there', () => {
    const marks = marksOf(result)
    const all = [...marks.captures, ...marks.cylinders, ...marks.tests]
    expect(new Set(all).size).toBe(all.length)
    expect(marks.captures.length).toBeGreaterThan(0)
    expect(marks.cylinders.length).toBeGreaterThan(0)
    for (const { mark, capture, cylinder, stage } of result.cylinders) {
      const of = result.captures.find(({ file }) => file === capture)!
      expect([mark, stage]).toEqual([`${of.mark}·${cylinder}`, of.stage])
    }
    for (const each of result.tests) {
      expect(each.instant === null, each.mark).toBe(each.trace === null || each.from_s === null)
      if (each.instant !== null)
        expect(Number(/·([\d.]+)/.exec(each.instant)![1])).toBeCloseTo(each.from_s!, 1)
    }
    // One trace, one mark.
    const traced = result.tests.filter(({ instant }) => instant !== null)
    expect(new Set(traced.map(({ trace, instant }) => `${trace} ${instant!.split('·')[0]}`)).size).toBe(
      new Set(traced.map(({ trace }) => trace)).size,
    )
  })

  test('the tables of the report hold those of result.json and no other', () => {
    const { captures, cylinders, tests, instants } = marksOf(result)
    expect(sorted(tables)).toEqual(sorted(new Set([...captures, ...cylinders, ...tests, ...instants])))
  })

  test('the charts hold those of the figures they draw, and no other', () => {
    const { cylinders, traces } = marksOf(result)
    const sprays = result.tests.filter(({ instant }) => instant !== null).map(({ mark }) => mark)
    const hunted = (result.leak_hunt?.places ?? []).flatMap(({ tests }) => tests)
    const inCharts = union(...[...charts.values()].map(marksIn))
    expect(sorted(inCharts)).toEqual(sorted(new Set([...cylinders, ...sprays, ...hunted, ...traces])))
    for (const stage of ['before', 'after'] as const) {
      const ofStage = result.cylinders.filter((c) => c.stage === stage).map(({ mark }) => mark)
      for (const kind of ['late-rise', 'firing-voltage', 'spark-lines']) {
        const drawn = union(
          ...[...charts]
            .filter(([name]) => name.startsWith(`charts/${kind}-${stage}`))
            .map(([, words]) => marksIn(words)),
        )
        expect(sorted(drawn), `${kind} ${stage}`).toEqual(sorted(ofStage))
      }
    }
  })

  test('the whole of the paper holds no mark beyond these', () => {
    const { captures, cylinders, tests, instants, traces } = marksOf(result)
    // A trace without a response is a file in charts/ only.
    const drawn = traces.filter((mark) => printed.has(mark))
    expect(sorted(printed)).toEqual(
      sorted(new Set([...captures, ...cylinders, ...tests, ...instants, ...drawn])),
    )
  })

  test('every figure that decides is traced: by the capture and the cylinder, the test, or the instant', () => {
    const { cylinders, tests } = marksOf(result)
    // Verdicts: the events of a cylinder are rows of events.csv under its mark, each with a number of its own.
    for (const { mark, capture, cylinder, stage, events: counted } of result.cylinders) {
      const rows = events.filter(
        (row) => row.capture === capture && row.cylinder === String(cylinder) && row.stage === stage,
      )
      expect(new Set(rows.map((row) => row.event)).size, mark).toBe(rows.length)
      expect(rows.length, mark).toBeGreaterThanOrEqual(counted)
    }
    // Causes: every entry that weighs names its tests, or else rests on the captures of the engine as found.
    for (const { says, tests: on, group } of result.ledger.entries) {
      if (on.length === 0) expect(['burn', 'idle'], says.text).toContain(group)
      for (const index of on) expect(tests[index], says.text).toBeDefined()
    }
    const found = result.captures.filter(({ stage }) => stage === 'before').map(({ mark }) => mark)
    for (const { text, args } of result.causes.flatMap((cause) => [...cause.for, ...cause.against])) {
      const entry = result.ledger.entries.find(({ says }) =>
        text.replace(/^[×÷][\d.,]+\s+/, '').startsWith(`${says.text} (`),
      )!
      expect(entry, text).toBeDefined()
      const own =
        entry.tests.length > 0
          ? [...new Set(entry.tests)].toSorted((a, b) => a - b).map((index) => tests[index]!)
          : found
      expect(sorted(marksIn(String(args['marks']))), text).toEqual(
        sorted(own.length > 3 && entry.tests.length === 0 ? [own[0]!, own.at(-1)!] : own),
      )
      expect(text.endsWith(`(${String(args['marks'])})`), text).toBe(true)
    }
    // The repair check: each side of a comparison is a cylinder that has its mark.
    for (const { cylinder, before, after } of result.repair.cylinders) {
      for (const [stage, verdict] of [
        ['before', before],
        ['after', after],
      ] as const) {
        expect(
          result.cylinders.some(
            (c) =>
              c.stage === stage &&
              c.cylinder === cylinder &&
              c.verdict === verdict &&
              cylinders.includes(c.mark),
          ),
        ).toBe(true)
      }
    }
  })
})
