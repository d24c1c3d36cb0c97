import { loadTexts } from '../../../src/texts/load-texts.ts'
import { pageOneOf } from '../page-one.ts'
import { dice } from './dice.ts'
import type { ComposedJob, JobFiles } from './compose.ts'
import { PREDICATES } from './predicates/all.ts'
import { orderless } from './predicates/order.ts'
import { conclusionOf, verdictsIn, type Seen } from './predicates/predicate.ts'
import { Library, recordFolder } from './run.ts'

const texts = loadTexts('en')

export interface Breach {
  seed: number
  predicate: string
  what: string
}

/** How a job came out against the truth: the cause named rightly, left open, or named wrongly. */
export type Share = 'right' | 'left open' | 'wrong'

export interface Judged {
  breaches: Breach[]
  share: Share
  /** Cylinders captured warm and at their time that were not judged, of how many. */
  unjudged: readonly [number, number]
}

/** Runs a composed job and holds it against every predicate; with page one, and in another order, where asked. */
export async function judgeComposed(
  job: ComposedJob,
  how: { page: boolean; otherOrder: boolean; library?: Library },
): Promise<Judged> {
  const library = how.library ?? new Library()
  const record = (files: JobFiles) => {
    const known = library.of(files)
    return recordFolder(known.files, known.store)
  }
  const { result, records } = await record(job.files)
  const seen: Seen = {
    result,
    cylindersCsv: records.get('cylinders.csv')!,
    testsCsv: records.get('tests.csv')!,
    page: how.page ? (await pageOneOf(result, texts)).words : undefined,
    truth: job.truth,
  }
  const breaches = PREDICATES.flatMap((p) =>
    p.breaches(seen).map((what) => ({ seed: job.seed, predicate: p.id, what })),
  )
  if (how.otherOrder) {
    const other = await record(shuffled(job))
    const [a, b] = [orderless(result), orderless(other.result)].map((x) =>
      JSON.stringify(x, null, 1).split('\n'),
    )
    const at = a!.findIndex((line, i) => line !== b![i])
    if (at !== -1 || a!.length !== b!.length)
      breaches.push({ seed: job.seed, predicate: '9 order changes nothing', what: `${a![at]} / ${b![at]}` })
  }
  const found = job.truth.captured.before ? [...verdictsIn(result, 'before').values()] : []
  const unjudged = found.filter((v) => v === 'not judged').length
  return { breaches, share: shareOf(seen), unjudged: [unjudged, found.length] }
}

function shareOf(seen: Seen): Share {
  const { truth } = seen
  const { faults, as_found: found } = conclusionOf(seen)
  const causes = truth!.found.map((f) => f.cause)
  const named = faults.filter(
    (f) => f.cause !== 'other' && (f.standing === 'clear' || f.standing === 'leading'),
  )
  if (causes.length === 0) return named.length > 0 || found.class === 'fault' ? 'wrong' : 'right'
  if (named.length === 0) return 'left open'
  return named.every((f) => [...causes, ...truth!.now.map((x) => x.cause)].includes(f.cause))
    ? 'right'
    : 'wrong'
}

/** The same job with the rows of its log, and its captures, in another order. */
function shuffled(job: ComposedJob): JobFiles {
  const own = dice(job.seed)
  const files = new Map(job.files)
  const [head, ...rows] = String(files.get('test-log.csv')).trimEnd().split('\n')
  files.set('test-log.csv', [head, ...own.shuffled(rows), ''].join('\n'))
  const yaml = String(files.get('job.yaml'))
  const [above, listed] = [
    yaml.slice(0, yaml.indexOf('captures:\n')),
    yaml.slice(yaml.indexOf('captures:\n')),
  ]
  const [captures, traces = ''] = listed.split(/^(?=traces:)/m)
  const entries = captures!.slice('captures:\n'.length).split(/^(?= {2}- file)/m)
  files.set('job.yaml', `${above}captures:\n${entries.toReversed().join('')}${traces}`)
  return files
}
