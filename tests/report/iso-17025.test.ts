import { beforeAll, describe, expect, test } from 'vitest'
import { revised } from '../../src/records/parts/revision.ts'
import type { Result } from '../../src/records/result.ts'
import { renderReport } from '../../src/report/render-report.ts'
import { dateWords, timeWords } from '../../src/report/pages/words.ts'
import { decimalsFor, formatNumber } from '../../src/texts/format-quantity.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import type { Args, Texts } from '../../src/texts/messages.ts'
import { say, sayAgain } from '../../src/texts/say.ts'
import { openPdf, pageText, wordsOf } from '../support/read-pdf.ts'
import { samplePng } from '../support/sample-photo.ts'
import { sampleJob, sampleTexts } from '../support/sample-result.ts'

/**
 * What ISO/IEC 17025:2017 asks a test report to show, looked for in the words read back from the PDF: each point is on
 * paper, or its absence is said. The report claims no accreditation; the list is a measure of completeness.
 */

const unbroken = (words: string) => words.replaceAll(/\s/g, '')

/** A report's pages without blanks, since a long name may be broken over two lines. */
interface Paper {
  pages: string[]
  all: string
  heads: string[]
  result: Result
  texts: Texts
}

function textsIn(language: Language): Texts {
  const texts = loadTexts(language)
  return { ...texts, templates: { ...sampleTexts().templates, ...texts.templates } }
}

async function printed(
  result: Result,
  texts: Texts,
  traces: ReturnType<typeof sampleJob>['traces'],
): Promise<Paper> {
  const photos = new Map(result.job.photos.map(({ file }) => [file, samplePng(80, 60)]))
  const doc = await openPdf(
    await renderReport({ result, traces, texts, attachments: [], photos, page: 'A4' }),
  )
  const numbers = Array.from({ length: doc.numPages }, (_, i) => i + 1)
  const pages = await Promise.all(numbers.map(async (n) => unbroken(await pageText(doc, n))))
  const heads = (await Promise.all(numbers.map((n) => wordsOf(doc, n, 'TH')))).flat()
  return { pages, all: pages.join('\n'), heads, result, texts }
}

const FULLEST = { cylinders: 8, tests: 40, photos: 3, causes: true } as const
const EMPTIEST = { cylinders: 4, after: false, bare: true } as const

const JOBS = LANGUAGES.flatMap((language) => [
  { language, job: 'fullest' as const },
  { language, job: 'emptiest' as const },
])

describe.each(JOBS)('the $job job in $language', ({ language, job }) => {
  let paper: Paper
  const shows = (words: string) => expect(paper.all).toContain(unbroken(words))
  const t = (key: string, args?: Args) => sayAgain(paper.texts, { key, args: args ?? {} })
  /** A field by its name: what it holds, or that it was not given. */
  const field = (name: string, value: string | null | undefined) => {
    if (value) return shows(`${t(name)} ${value}`)
    // Fields without a value are named together.
    const absent = paper.all.split(unbroken(t('report.record.absent'))).slice(1)
    expect(
      absent.some((row) => row.includes(unbroken(t(name)))),
      name,
    ).toBe(true)
  }

  beforeAll(async () => {
    const texts = textsIn(language)
    const { result, traces } = sampleJob(job === 'fullest' ? FULLEST : EMPTIEST)
    paper = await printed({ ...result, language }, texts, traces)
  }, 60_000)

  test('a: what kind of document it is, on every page and in full at the end', () => {
    for (const page of paper.pages.slice(1)) expect(page).toContain(unbroken(t('report.kind')))
    field('report.declaration.kind', t('report.declaration.kind-words'))
  })

  test('b: who made it, and where they are', () => {
    const { shop } = paper.result.job
    expect(paper.pages[0]).toContain(unbroken(shop.name!))
    if (shop.address) expect(paper.pages[0]).toContain(unbroken(shop.address))
    else field('report.declaration.place', t('report.declaration.place-absent'))
  })

  test('c: where the work was done', () => {
    const { address } = paper.result.job.shop
    field(
      'report.declaration.place',
      address ? t('report.declaration.place-shop', { address }) : t('report.declaration.place-absent'),
    )
  })

  test('d: one identity on every page, every page numbered, and a clear end', () => {
    const end = unbroken(t('report.declaration.end', { workOrder: paper.result.job.work_order }))
    paper.pages.forEach((page, i) => {
      expect(page).toContain(unbroken(paper.result.job.work_order))
      expect(page).toContain(unbroken(t('report.page-of', { page: i + 1, pages: paper.pages.length })))
      expect(page.includes(end)).toBe(i === paper.pages.length - 1)
    })
  })

  test('e: the customer, and how to reach them', () => {
    const customer = paper.result.job.customer ?? {}
    field('report.ccc.customer', customer.name)
    field('report.ccc.contact', customer.contact)
  })

  test('f: the method, step by step, and by which limits', () => {
    for (const { says } of paper.result.method) shows(says.text)
    // Those that decided or were changed; result.json and manifest.json hold all of them.
    for (const { key, value } of paper.result.limits.filter(
      (limit) => limit.changed || limit.key === 'lateRisePct' || limit.key === 'minEvents',
    )) {
      shows(key)
      shows(formatNumber(value, String(value).split('.')[1]?.length ?? 0, language))
    }
    shows(t('report.limits.whole', { count: paper.result.limits.length }))
  })

  test('g: the item, unmistakably, and its condition', () => {
    const { vehicle } = paper.result.job
    for (const [name, value] of [
      ['vin', vehicle.vin],
      ['plate', vehicle.plate],
      ['unit', vehicle.unit_number],
    ] as const)
      field(`report.ccc.${name}`, value)
    field(
      'report.ccc.vin-check',
      t(`report.vin-check.${vehicle.vin_check.toLowerCase().replaceAll(' ', '-')}`),
    )
    field('report.declaration.condition', t('report.declaration.condition-words'))
    field('report.ccc.complaint', paper.result.job.complaint)
  })

  test('h: when the item came in, and when each capture was taken', () => {
    field(
      'report.declaration.received',
      t('report.declaration.received-words', { date: dateWords(paper.texts, paper.result.job.opened) }),
    )
    for (const { file, taken } of paper.result.captures) {
      shows(file)
      shows(timeWords(taken).slice(0, 10))
      shows(timeWords(taken).slice(11))
    }
  })

  test('i: when the work was done', () => {
    const days = [
      ...paper.result.captures.map(({ taken }) => taken),
      ...paper.result.tests.map(({ at }) => at),
    ]
      .map((time) => time.slice(0, 10))
      .toSorted()
    const [first, last] = [days[0]!, days.at(-1)!].map((day) => dateWords(paper.texts, day)) as [
      string,
      string,
    ]
    field(
      'report.declaration.performed',
      first === last ? first : t('report.declaration.performed-words', { from: first, to: last }),
    )
  })

  test('j: when the report was issued', () => {
    const { closed } = paper.result.job
    field(
      'report.declaration.issued',
      closed ? dateWords(paper.texts, closed) : t('report.declaration.issued-open'),
    )
  })

  test('k: how the events were sampled, and how many there were', () => {
    field('report.declaration.sampling', t('report.declaration.sampling-words'))
    for (const { events } of paper.result.captures) shows(formatNumber(events, 0, language))
  })

  test('l: that results hold only for the items examined', () => shows(t('report.declaration.items')))

  test('m: results with their units and intervals', () => {
    const columns = {
      late_rise_pct: '%',
      firing_kv: 'kV',
      burn_ms: 'ms',
      start_kv: 'kV',
      mid_kv: 'kV',
      early_slope_kv_per_ms: 'kV/ms',
      late_slope_kv_per_ms: 'kV/ms',
    }
    for (const [key, unit] of Object.entries(columns)) {
      const head = t(`report.column.${key.replaceAll('_', '-')}`)
      expect(unbroken(head).endsWith(`,${unbroken(unit)}`), head).toBe(true)
      expect(paper.heads.map(unbroken)).toContain(unbroken(head))
      for (const { figures } of paper.result.cylinders) {
        const figure = figures[key]!
        if ('absent' in figure) continue
        const number = (value: number) => formatNumber(value, decimalsFor(figure.unit), language)
        expect(figure.unit).toBe(unit)
        shows(`${number(figure.value)} ${number(figure.low)}\u2026${number(figure.high)}`)
      }
    }
  })

  test('n: what was changed in the method', () => {
    const changed = [
      ...(paper.result.limits.some((limit) => limit.changed) ? ['limits'] : []),
      ...(paper.result.ledger.overridden ? ['causes'] : []),
    ]
    expect(changed.length).toBeGreaterThan(0)
    field(
      'report.declaration.deviations',
      changed.map((key) => t(`report.declaration.deviations-${key}`)).join('; '),
    )
    if (paper.result.ledger.overridden) shows(paper.result.ledger.overridden.text)
  })

  test('o: who authorises it, with room to sign', () => {
    const { technician } = paper.result.job
    shows(t('report.declaration.authorises'))
    shows([technician.name, technician.certificate].filter(Boolean).join(', '))
    expect(paper.all.split(unbroken(t('report.declaration.signed'))).length - 1).toBe(2)
  })

  test('p: which results came from others, and what others supplied (7.8.2.2)', () => {
    field('report.declaration.others', t('report.declaration.others-words'))
    shows(t('report.declaration.supplied'))
  })

  test('that it is copied only in full, and that nobody takes it for an accredited one', () => {
    shows(t('report.declaration.in-full'))
    shows(t('report.declaration.no-accreditation'))
    expect(paper.all.replaceAll(unbroken(t('report.declaration.no-accreditation')), '')).not.toMatch(
      /accredit|acr[eé]dit|akkredit/i,
    )
  })

  test('7.8.6: the decision rule, its risk, and which results it was applied to', () => {
    for (const key of ['rule-text', 'rule-risk']) shows(t(`report.method.${key}`))
    expect(paper.result.limits.find(({ key }) => key === 'lateRisePct')).toBeDefined()
    for (const { mark, verdict } of paper.result.cylinders) {
      shows(t(`chart.verdict.${verdict.replaceAll(' ', '-')}`))
      shows(mark)
    }
  })

  test('7.8.7: opinions are marked as opinions', () => {
    field('report.declaration.opinions', t('report.declaration.opinions-words'))
    if (paper.result.causes.length > 0) shows(t('report.causes.opinion'))
  })
})

describe('7.8.8: a report made again', () => {
  const texts = textsIn('en')
  const { result, traces } = sampleJob({ cylinders: 4, tests: 3 })
  const old: Result = {
    ...result,
    limits: result.limits.map((limit, i) => (i === 0 ? { ...limit, value: limit.value + 5 } : limit)),
    inputs: result.inputs.map((input, i) => (i === 0 ? { ...input, sha256: '0'.repeat(64) } : input)),
  }
  const digest = 'c1'.repeat(32)

  test('bears its number on every page, names the one it replaces, and says everything that changed', async () => {
    const again = revised(texts, result, { result: old, sha256: digest })
    const { pages, all } = await printed(again, texts, traces)
    for (const page of pages.slice(1)) expect(page).toContain(unbroken(`${say(texts, 'report.revision')} 2`))
    expect(all).toContain(unbroken(say(texts, 'report.declaration.replaces', { number: 1, digest })))
    expect(again.revision!.changes.map(({ key }) => key)).toEqual([
      'revision.input-changed',
      'revision.limit',
    ])
    for (const { text } of again.revision!.changes) expect(all).toContain(unbroken(text))
  })

  test('a report made for the first time says nothing of a revision', async () => {
    const { all } = await printed(result, texts, traces)
    expect(all).not.toContain(unbroken(say(texts, 'report.declaration.changes')))
    expect(all).not.toContain(unbroken(`${say(texts, 'report.revision')} 1`))
  })
})

test('where nothing was changed in the method, that is said', async () => {
  const texts = textsIn('en')
  const { result, traces } = sampleJob({ cylinders: 4, tests: 2 })
  const { all } = await printed(
    { ...result, limits: result.limits.map((limit) => ({ ...limit, changed: false })) },
    texts,
    traces,
  )
  expect(all).toContain(
    unbroken(
      `${say(texts, 'report.declaration.deviations')} ${say(texts, 'report.declaration.deviations-none')}`,
    ),
  )
})
