import {
  conclusionOf,
  shownIn,
  verdictsIn,
  worked,
  type Finding,
  type Predicate,
  type Seen,
} from './predicate.ts'

/**
 * `in order` needs every cylinder judged, none odd and none apart, no reading out of limits and no unexplained code; a
 * state with a fault that the record shows is never in order, and a state nobody recorded is not known.
 */
export const noReassurance: Predicate = {
  id: '1 no reassurance',
  breaches(seen) {
    const { as_found: found, now } = conclusionOf(seen)
    const work = worked(seen)
    return [
      ...(found.class === 'in order'
        ? open(seen, 'before').map((why) => `as found in order, but ${why}`)
        : []),
      ...(now.class === 'in order'
        ? [...open(seen, work ? 'after' : 'before'), ...(work ? lost(seen) : [])].map(
            (why) => `now in order, but ${why}`,
          )
        : []),
      ...shownFaults(seen),
      ...(work
        ? []
        : found.class === now.class
          ? []
          : [`no work, yet ${found.class} as found and ${now.class} now`]),
      ...(work && now.class !== 'not known' && !recordedAfter(seen)
        ? ['nothing was recorded after the work, yet it is known']
        : []),
    ]
  },
}

const recordedAfter = ({ result }: Seen): boolean =>
  result.captures.some(({ stage }) => stage === 'after') ||
  result.tests.some(({ stage, step }) => stage === 'after' && !['repair', 'note', 'photo'].includes(step))

/** Without what is said to be of the state after the work and was taken before it: it speaks for no state. */
function inTime(result: Seen['result']): Seen['result'] {
  const last = Math.max(
    ...result.tests.filter(({ step }) => step === 'repair').map(({ at }) => Date.parse(at)),
  )
  const early = new Set(result.captures.filter((c) => Date.parse(c.taken) < last).map(({ file }) => file))
  return {
    ...result,
    cylinders: result.cylinders.filter(({ stage, capture }) => stage !== 'after' || !early.has(capture)),
    tests: result.tests.filter(({ stage, at }) => stage !== 'after' || !(Date.parse(at) < last)),
  }
}

/** What speaks against `in order` in a stage, from the records alone. */
function open(seen: Seen, stage: 'before' | 'after'): string[] {
  const result = stage === 'after' ? inTime(seen.result) : seen.result
  const verdicts = verdictsIn(result, stage)
  // a reading taken again under the same condition stands for the one before
  const log = result.tests.filter(
    (t, i) =>
      t.stage === stage &&
      t.finding === 'out of limits' &&
      !result.tests
        .slice(i + 1)
        .some(
          (u) =>
            u.stage === stage &&
            u.step === t.step &&
            u.condition === t.condition &&
            u.finding === 'in limits' &&
            t.readings.every((r) => u.readings.some((s) => s.reading === r.reading)),
        ),
  )
  const missing = Array.from({ length: result.job.engine.cylinders }, (_, i) => i + 1).filter(
    (c) => !verdicts.has(c),
  )
  return [
    ...missing.map((c) => `cylinder ${c} was not captured`),
    ...[...verdicts].filter(([, v]) => v !== 'level').map(([c, v]) => `cylinder ${c} is ${v}`),
    ...result.cylinders
      .filter((c) => c.stage === stage && c.apart.length > 0)
      .map((c) => `cylinder ${c.cylinder} stands apart in ${c.apart.map((a) => a.figure).join(', ')}`),
    ...log.map((t) => `${t.step} at ${t.at} is out of limits`),
    ...(stage === 'before'
      ? conclusionOf(seen)
          .findings.filter((f) => f.kind === 'code' && f.explained_by === null)
          .map((f) => `nothing explains ${f.reading}`)
      : []),
  ]
}

/**
 * Kinds that a capture reads again with the burn: who burns as it should has its spark, and a cylinder that stands apart
 * once more is a finding of its own.
 */
const OF_CAPTURES: ReadonlySet<string> = new Set([
  'mixture',
  'circuit',
  'misfire',
  'firing-voltage',
  'burn-time',
  'oscillation',
])

/** Readings out of limits before the work that were neither read again nor said to be missing. */
function lost(seen: Seen): string[] {
  const { findings, now } = conclusionOf(seen)
  const after = findings.filter((f) => f.state === 'after')
  const again = (of: Finding) =>
    after.some((f) =>
      // a line that a gauge turned into low compression is read again with the burn; the gauge's own reading is not
      OF_CAPTURES.has(of.kind) || of.direction === 'low compression'
        ? f.kind === 'mixture' &&
          f.order !== 'not known' &&
          of.where.cylinders.every((c) => f.where.cylinders.includes(c))
        : f.kind === of.kind && f.reading === of.reading,
    )
  return findings
    .filter(
      (f) => f.state === 'as found' && f.order === 'out of order' && f.kind !== 'code' && f.kind !== 'leak',
    )
    .filter((f) => !again(f) && !now.not_read_again.includes(f.id))
    .map((f) => `${f.kind} ${f.reading ?? ''} was out and was not read again, unsaid`)
}

/** A fault that is truly there and that the record shows. */
function shownFaults(seen: Seen): string[] {
  const { truth } = seen
  if (!truth) return []
  const { as_found: found, now } = conclusionOf(seen)
  const stage = truth.work === 'none' ? 'before' : 'after'
  return [
    ...(found.class === 'in order'
      ? shownIn(seen, 'before').map((s) => `as found in order over a ${s.fault.kind} that ${s.by} shows`)
      : []),
    ...(now.class === 'in order'
      ? shownIn(seen, stage).map((s) => `now in order over a ${s.fault.kind} that ${s.by} shows`)
      : []),
  ]
}
