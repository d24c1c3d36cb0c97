import type { Result, Statement } from '../../src/records/result.ts'
import type { DrawnTraces } from '../../src/records/drawn-traces.ts'
import { sayAgain } from '../../src/texts/say.ts'
import type { Arg, Texts } from '../../src/texts/messages.ts'
import { verdictNames } from '../../src/verdicts/verdict-names.ts'
import { sampleJob } from './sample-result.ts'

const UNBROKEN = 'Saugrohrdichtungsflanschverschraubungsnachzugsprotokollblatt'
const LONG = `joint between the intake runner and the cylinder head, upper and lower bolt, seen from the firewall side; ${UNBROKEN}; \u0441\u043e\u0435\u0434\u0438\u043d\u0435\u043d\u0438\u0435 \u0432\u043f\u0443\u0441\u043a\u043d\u043e\u0433\u043e \u043a\u043e\u043b\u043b\u0435\u043a\u0442\u043e\u0440\u0430`
const STORY = Array.from({ length: 6 }, () => LONG).join('. ')

/** A sentence of the templates with long words and figures for what it needs. */
function fullest(texts: Texts, key: string): Statement {
  const args: Record<string, Arg> = {}
  for (const [, name, format] of texts.templates[key]!.matchAll(/\{(\w+)(?::([\w.]+))?\}/g)) {
    args[name!] =
      format === undefined
        ? (args[name!] ?? 'intake manifold gasket, rear')
        : /^d\d$/.test(format)
          ? 12_345.678
          : { value: 12_345.678, low: -1234.5, high: 23_456.789, unit: 'kV/ms' }
  }
  return { key, args: args as Statement['args'], text: sayAgain(texts, { key, args }) }
}

const keysOf = (texts: Texts, prefix: string) =>
  Object.keys(texts.templates).filter(
    (key) => key.startsWith(prefix) && key.split('.').length === prefix.split('.').length,
  )

/** A job with more and longer words than any should have: 12 cylinders, 40 tests, 12 photos, every verdict, remark and warning, causes with long places. Invented throughout. */
export function longestJob(texts: Texts, page: 'A4' | 'LETTER'): { result: Result; traces: DrawnTraces } {
  const { result, traces } = sampleJob({
    cylinders: 12,
    tests: 40,
    photos: 12,
    foreign: true,
    causes: true,
    page,
  })
  const verdicts = keysOf(texts, 'verdict.')
  const says = (prefix: string, i: number) =>
    fullest(texts, keysOf(texts, prefix)[i % keysOf(texts, prefix).length]!)
  const file = `captures/${UNBROKEN}-${UNBROKEN}.csv`
  const renamed = (name: string) =>
    name.replace(/^captures\/idle-(before|after)\.csv$/, `${file.slice(0, -4)}-$1.csv`)
  return {
    traces: {
      sparkLines: traces.sparkLines.map((line) => ({ ...line, capture: renamed(line.capture) })),
      speeds: traces.speeds.map((speed) => ({
        ...speed,
        file: renamed(speed.file),
        sprays: speed.sprays.map((spray) => ({ ...spray, place: LONG })),
      })),
    },
    result: {
      ...result,
      language: texts.language,
      job: {
        ...result.job,
        complaint: STORY,
        cause: STORY,
        correction: STORY,
        work_order: `WO-${UNBROKEN}`,
        shop: { ...result.job.shop, address: LONG },
        technician: { name: LONG, certificate: LONG },
        customer: { name: LONG, contact: LONG, reference: LONG },
        vehicle: { ...result.job.vehicle, make: UNBROKEN, model: LONG, plate: UNBROKEN },
        instrument: { ...result.job.instrument, description: STORY },
        photos: result.job.photos.map((photo) => ({ ...photo, caption: STORY })),
      },
      captures: result.captures.map((c) => ({
        ...c,
        file: renamed(c.file),
        remarks: keysOf(texts, 'remark.').map((key) => ({
          code: key,
          forbids: [],
          cylinders: [],
          says: fullest(texts, key),
        })),
      })),
      cylinders: result.cylinders.map((c, i) => ({
        ...c,
        capture: renamed(c.capture),
        verdict: c.stage === 'before' ? verdictNames[i % verdictNames.length]! : c.verdict,
        reason: fullest(texts, verdicts[i % verdicts.length]!),
      })),
      tests: result.tests.map((t, i) => ({
        ...t,
        place: t.place === null ? null : LONG,
        note: STORY.slice(0, 300),
        outcome: LONG,
        meaning: [0, 1].map((k) => says('tests.spray.', 2 * i + k)),
      })),
      causes: keysOf(texts, 'cause.')
        .filter((key) => key !== 'cause.at')
        .slice(0, 8)
        .map((key, i) => ({
          id: key.slice('cause.'.length),
          place: LONG,
          probability: 0.4 / (i + 1),
          name: { key, args: {}, text: texts.templates[key]! },
          for: [0, 1, 2].map((k) => says('evidence.', 3 * i + k)),
          against: [says('evidence.', 3 * i + 40)],
        })),
      repair: {
        ...result.repair,
        conditions: keysOf(texts, 'conditions.').map((key) => fullest(texts, key)),
        work: [STORY],
        cylinders: result.repair.cylinders.map((c, i) => ({
          ...c,
          before: verdictNames[i % verdictNames.length]!,
        })),
      },
      conclusion: { ...result.conclusion, page_one: longestPage(texts) },
      problems: keysOf(texts, 'problem.').map((key) => ({
        code: key,
        severity: 'warn',
        file: file,
        line: 12_345,
        column: 1,
        text: fullest(texts, key).text,
      })),
      inputs: result.inputs.map((input) => ({ ...input, file: `${UNBROKEN}/${input.file}` })),
    },
  }
}

/** The longest sentences each passage of page one can hold. */
function longestPage(texts: Texts): Result['conclusion']['page_one'] {
  const longest = (prefix: string, count: number) =>
    keysOf(texts, prefix)
      .toSorted((a, b) => texts.templates[b]!.length - texts.templates[a]!.length)
      .slice(0, count)
      .map((key) => fullest(texts, key))
  return {
    found: [...longest('page.found.', 4), ...longest('page.cause.', 1), ...longest('page.stated.', 1)],
    sure: longest('page.sure.', 3),
    mended: longest('page.mended.', 2),
    unchecked: [...longest('page.again.', 2), ...longest('page.unchecked.', 1)],
    driving: longest('page.driving.', 1),
    next: [],
  }
}
