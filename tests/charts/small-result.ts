import type { CylinderRecord, Result } from '../../src/records/result.ts'

/** The fields of a result that charts read, for an invented job. */
export interface SmallJob {
  cylinders?: number
  verdicts?: Readonly<Record<number, CylinderRecord['verdict']>>
  /** Late rise before the repair, % of the middle level; others are near 0. */
  risesPct?: Readonly<Record<number, number>>
  stages?: readonly ('before' | 'after')[]
  absent?: readonly number[]
}

const figure = (value: number, half: number, unit: string) => ({
  value,
  low: value - half,
  high: value + half,
  unit,
  mad: half / 2,
  n: 320,
  budget: [],
})

function cylinderOf(cylinder: number, stage: 'before' | 'after', job: Required<SmallJob>): CylinderRecord {
  const isBefore = stage === 'before'
  const pct = (isBefore ? job.risesPct[cylinder] : undefined) ?? ((cylinder * 7) % 5) - 2
  const isAbsent = job.absent.includes(cylinder)
  const figures = isAbsent
    ? {
        late_rise_pct: { absent: 'too-few-events' },
        late_rise_kv: { absent: 'too-few-events' },
        firing_kv: { absent: 'clipped' },
      }
    : {
        late_rise_pct: figure(pct, 4.1, '%'),
        late_rise_kv: figure(pct * 0.0132, 0.05, 'kV'),
        firing_kv: figure(8.2 + (cylinder % 3) * 0.7, 0.5, 'kV'),
      }
  return {
    mark: `C${isBefore ? 1 : 2}\u00b7${cylinder}`,
    stage,
    capture: `captures/idle-${stage}.csv`,
    cylinder,
    verdict: (isBefore ? job.verdicts[cylinder] : undefined) ?? 'level',
    rule: 'level',
    limits: [],
    sources: [],
    reason: { key: 'verdict.level', args: {}, text: '' },
    events: 320,
    misfires: 0,
    partial: 1,
    wasted: 0,
    classes: {},
    figures,
    condition: 'idle',
    running: 'idle',
    basis: 'limit',
    apart: [],
    against_fellows: { absent: 'not-recorded' },
    left_out: 0,
  }
}

export function smallResult(given: SmallJob = {}): Result {
  const job: Required<SmallJob> = {
    cylinders: 6,
    verdicts: { 5: 'lean' },
    risesPct: { 5: 84 },
    stages: ['before', 'after'],
    absent: [],
    ...given,
  }
  const numbers = Array.from({ length: job.cylinders }, (_, i) => i + 1)
  const odd = Object.entries(job.verdicts)
    .filter(([, v]) => v !== 'level' && v !== 'borderline')
    .map(([c]) => Number(c))
  const apart = Object.entries(job.verdicts).filter(([, verdict]) => verdict !== 'level')
  return {
    job: { engine: { cylinders: job.cylinders, banks: null } },
    conclusion: {
      findings: apart.map(([cylinder, verdict]) => ({
        state: 'as found',
        order: verdict === 'borderline' ? 'unsure' : verdict === 'not judged' ? 'not known' : 'out of order',
        where: { cylinders: [Number(cylinder)] },
      })),
    },
    captures: job.stages.map((stage) => ({
      file: `captures/idle-${stage}.csv`,
      stage,
      condition: 'idle',
      engine: 'warm',
    })),
    cylinders: job.stages.flatMap((stage) => numbers.map((c) => cylinderOf(c, stage, job))),
    engine: { before: { cylinders: odd }, after: job.stages.includes('after') ? { cylinders: [] } : null },
    limits: [{ key: 'lateRisePct', value: 20, unit: '%', origin: 'shop-practice', changed: false }],
    causes: [],
    repair: { conditions: [] },
  } as unknown as Result
}
