import { createHash } from 'node:crypto'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import {
  resultSchema,
  type CylinderRecord,
  type FigureRecord,
  type Result,
  type Statement,
  type TestRecord,
} from '../../src/records/result.ts'
import type { DrawnTraces } from '../../src/records/drawn-traces.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import type { Texts } from '../../src/texts/messages.ts'
import { sampleDrawn } from './sample-drawn.ts'

/** An invented job; every name, number and digest in it is made up. */
export interface SampleJob {
  cylinders?: 4 | 6 | 8 | 12
  tests?: number
  /** Without an after capture the repair is not checked. */
  after?: boolean
  /** Long words, accents, Greek, Cyrillic, and signs that the typeface lacks. */
  foreign?: boolean
  photos?: number
  causes?: boolean
  page?: 'A4' | 'LETTER'
  /** Everything optional left out. */
  bare?: boolean
}

const LEAN_PCT = 34
const FIRST_LEAN = 5

const sha = (text: string) => createHash('sha256').update(text).digest('hex')
const said = (key: string, text: string, args: Statement['args'] = {}): Statement => ({ key, args, text })
const round = (value: number) => Number(value.toFixed(3))

/** A result, and the lines its charts draw. The result is checked against its own schema. */
export function sampleJob(options: SampleJob = {}): { result: Result; traces: DrawnTraces } {
  const { cylinders = 6, after = true, bare = false } = options
  const lean = cylinders > FIRST_LEAN ? FIRST_LEAN : 3
  const stages = after ? (['before', 'after'] as const) : (['before'] as const)
  const result = resultSchema.parse(buildResult(options, { lean, stages }))
  const traces = sampleDrawn({ cylinders, rises: { [lean]: 0.5 }, stages, ...(bare ? { sprays: [] } : {}) })
  return { result, traces }
}

/** The report's texts, and names for the invented causes. */
export function sampleTexts(): Texts {
  const texts = loadTexts('en')
  return {
    ...texts,
    templates: {
      ...texts.templates,
      'cause.runner-joint-leak': 'Leaking joint of an intake runner',
      'cause.injector-restricted': 'Restricted injector',
      'cause.fuel-pressure-low': 'Low fuel pressure',
    },
  }
}

interface Plan {
  lean: number
  stages: readonly ('before' | 'after')[]
}

function buildResult(options: SampleJob, { lean, stages }: Plan): Result {
  const { cylinders = 6, tests = 9, photos = 0, page = 'A4', bare = false } = options
  const random = makeRandom(4711)
  const after = stages.includes('after')
  return {
    conclusion: conclusionOf({ lean, after, cylinders }),
    format: 1,
    program: { name: 'burnline', version: '0.1.0' },
    language: 'en',
    page,
    job: jobOf({ ...options, cylinders, photos, bare }),
    captures: stages.map((stage) => captureOf(stage, cylinders)),
    cylinders: stages.flatMap((stage) =>
      Array.from({ length: cylinders }, (_, i) =>
        cylinderOf({ stage, cylinder: i + 1, lean: stage === 'before' && i + 1 === lean }, random),
      ),
    ),
    engine: { before: engineOf(lean), after: after ? engineOf(undefined) : null },
    tests: Array.from({ length: bare ? 0 : tests }, (_, i) =>
      testOf(i, { total: tests, lean, foreign: options.foreign ?? false }),
    ),
    causes: options.causes ? causesOf(lean) : [],
    ledger: ledgerOf(options.causes ? lean : undefined),
    next_test: options.causes
      ? {
          id: 'smoke',
          place: null,
          minutes: 20,
          gain_bits: 0.31,
          cautions: ['hot', 'vapour'],
          says: said(
            'next-test.smoke',
            'Next: a smoke test of the intake would tell the first two causes apart.',
          ),
          outcomes: [
            {
              id: 'found',
              probability: 0.7,
              says: said(
                'next-test.outcome-found',
                'The joint would stand first with 97 %, if smoke comes out there.',
              ),
            },
          ],
        }
      : null,
    repair: repairOf({ after, cylinders, lean, bare }, random),
    summary: Object.values(pageOneOf({ after, cylinders, lean })).flat(),
    limits: LIMITS,
    sources: SOURCES,
    method: METHOD,
    problems: bare
      ? [
          {
            code: 'default-uncertainty',
            severity: 'warn',
            file: 'job.yaml',
            line: null,
            column: null,
            text: 'No voltage uncertainty is given; 10 % is used.',
          },
        ]
      : [],
    inputs: inputsOf(stages, photos, bare),
  }
}

function jobOf({
  cylinders,
  photos,
  foreign,
  bare,
}: SampleJob & { cylinders: number; photos: number; bare: boolean }): Result['job'] {
  const long = 'Donaudampfschifffahrtselektrizit\u00e4tenhauptbetriebswerkbauunterbeamtengesellschaft'
  return {
    work_order: '24-0713',
    opened: '2026-03-04',
    closed: bare ? null : '2026-03-05',
    shop: bare
      ? { name: 'Example Garage' }
      : {
          name: foreign
            ? `\u0391\u03b8\u03ae\u03bd\u03b1 \u0416\u0443\u043a & ${long}`
            : 'Example Garage (invented)',
          address: '12 Sample Street, 00000 Nowhere',
          phone: '000 555 0100',
          email: 'desk@garage.example',
          registration: 'REG-EX-0001',
        },
    technician: bare
      ? { name: 'A. Example' }
      : { name: foreign ? '\u0141ukasz \u010capek-\u00d8stergaard' : 'A. Example', certificate: 'EX-1234' },
    customer: bare
      ? null
      : { name: 'Example Fleet Ltd', contact: 'fleet@example.example', reference: 'Unit 12 / claim 88-1' },
    vehicle: {
      vin: bare ? null : '1M8GDM9AXKP042788',
      vin_check: bare ? 'not given' : 'passes',
      plate: bare ? null : 'EX 123',
      unit_number: bare ? null : '12',
      year: bare ? null : 2009,
      make: bare ? null : 'Example',
      model: bare ? null : 'Wagon',
      odometer: bare ? null : { value: 98_123, unit: 'mi' },
    },
    engine: {
      cylinders,
      strokes: 4,
      firing_order: Array.from({ length: cylinders }, (_, i) => i + 1),
      ignition: 'coil-per-cylinder',
      fuel: 'E10',
      pairs: null,
      banks: cylinders >= 6 && !bare ? { 1: odd(cylinders), 2: odd(cylinders).map((n) => n + 1) } : null,
      displacement_l: bare ? null : cylinders / 2,
    },
    complaint: foreign
      ? `Ruckelt im Leerlauf \u2013 \u03c3\u03c4\u03bf \u03c1\u03b5\u03bb\u03b1\u03bd\u03c4\u03af, \u0434\u0435\u0440\u0433\u0430\u0435\u0442\u0441\u044f; \u8f66\u8f86\u6296\u52a8 \ud83d\ude97 ${long}`
      : 'Stumbles at a warm idle, clears on the road',
    cause: bare ? null : 'Intake joint at the lean cylinder does not seal',
    correction: bare
      ? null
      : 'Renewed the intake joint (part EX-55-01) and tightened the manifold to the maker\u2019s figure',
    instrument: {
      description: bare ? null : 'Four-channel recorder with capacitive pickups',
      calibration: bare ? null : { date: '2025-11-02', due: '2026-11-02', certificate: 'CAL-EX-77' },
      voltage_uncertainty_percent: bare ? 10 : 5,
      voltage_uncertainty_stated: !bare,
      time_uncertainty_ppm: 100,
      time_uncertainty_stated: !bare,
    },
    photos: Array.from({ length: photos }, (_, i) => ({
      file: `photos/p${i + 1}.png`,
      caption: i % 3 === 2 ? null : `Joint ${i + 1}, seen from above`,
      stage: i % 2 ? 'after' : 'before',
    })),
  }
}

const odd = (cylinders: number) => Array.from({ length: cylinders / 2 }, (_, i) => 2 * i + 1)

function captureOf(stage: 'before' | 'after', cylinders: number): Result['captures'][number] {
  const file = `captures/idle-${stage}.csv`
  return {
    file,
    mark: stage === 'before' ? 'C1' : 'C2',
    sha256: sha(file),
    bytes: 41_234_567,
    stage,
    condition: 'idle',
    engine: 'warm',
    taken: stage === 'before' ? '2026-03-04T09:12:00-05:00' : '2026-03-05T14:40:00-05:00',
    rows: 5_000_000,
    sample_rate_hz: 500_000,
    start_s: 0,
    duration_s: 10,
    dialect: {
      encoding: 'utf-8',
      separator: ',',
      decimal: '.',
      preamble_lines: 0,
      header: ['time_s', 'secondary_kv', 'sync_v'],
      evidence: [],
    },
    channels: [],
    sync: { seen: 58, bridged: stage === 'before' ? 1 : 0, rejected: 0 },
    events: 58 * cylinders,
    partial: 1,
    wasted: 0,
    speed: {
      mean_rpm: figure(702, 4, 'rpm'),
      spread_rpm: plain(9, 1, 'rpm'),
      swing_rpm: plain(28, 4, 'rpm'),
      swing_period_s: plain(3.7, 0.2, 's'),
    },
    remarks:
      stage === 'before'
        ? [
            {
              code: 'under-sampled',
              forbids: ['firing'],
              cylinders: [2],
              says: said(
                'remark.under-sampled',
                'The rise of cylinder 2 spans fewer than 3 samples: its firing voltage may read low.',
              ),
            },
          ]
        : [],
  }
}

const plain = (value: number, half: number, unit: string) => ({
  value: round(value),
  low: round(value - half),
  high: round(value + half),
  unit,
})
const figure = (value: number, half: number, unit: string): FigureRecord => ({
  ...plain(value, half, unit),
  mad: round(half / 2),
  n: 58,
  budget: [
    { source: 'instrument', u: round(half / 3) },
    { source: 'scatter', u: round(half / 4) },
  ],
})

function cylinderOf(
  place: { stage: 'before' | 'after'; cylinder: number; lean: boolean },
  random: Random,
): CylinderRecord {
  const { stage, cylinder, lean } = place
  const rise = (lean ? LEAN_PCT : 3) + 2 * random.gaussian()
  const rated = { lateRisePct: plain(rise, 4, '%') }
  return {
    mark: `${stage === 'before' ? 'C1' : 'C2'}\u00b7${cylinder}`,
    stage,
    capture: `captures/idle-${stage}.csv`,
    cylinder,
    verdict: lean ? 'lean' : 'level',
    rule: lean ? 'lean' : 'level',
    limits: ['lateRisePct'],
    sources: ['shop-practice', 'iso-17025-7.8.6'],
    reason: lean
      ? said(
          'verdict.lean',
          `The spark line climbs after its middle: late rise ${rise.toFixed(1)} %, above +20 %.`,
          rated,
        )
      : said(
          'verdict.level',
          `The spark line keeps its height after the middle: late rise ${rise.toFixed(1)} %, inside \u00b120 %.`,
          rated,
        ),
    events: 57,
    misfires: lean ? 2 : 0,
    partial: 0,
    wasted: 0,
    classes: { level: lean ? 0.1 : 0.95, lean: lean ? 0.9 : 0.05 },
    condition: 'idle',
    running: 'idle',
    basis: 'limit',
    apart: [],
    against_fellows: { absent: 'not-recorded' },
    left_out: 0,
    figures: {
      firing_kv:
        cylinder === 2
          ? { absent: 'under-sampled' }
          : figure(9.4 + random.gaussian() * 0.6 + (lean ? 1.6 : 0), 0.5, 'kV'),
      burn_ms: figure(1.5 + random.gaussian() * 0.05 - (lean ? 0.2 : 0), 0.04, 'ms'),
      start_kv: figure(1.62, 0.09, 'kV'),
      mid_kv: figure(1.48, 0.08, 'kV'),
      late_kv: figure(1.52, 0.08, 'kV'),
      late_rise_kv: figure((rise / 100) * 1.48, 0.05, 'kV'),
      late_rise_pct: figure(rise, 4, '%'),
      early_change_kv: figure(-0.14, 0.03, 'kV'),
      early_slope_kv_per_ms: figure(-0.19, 0.04, 'kV/ms'),
      late_slope_kv_per_ms: figure(rise / 60, 0.06, 'kV/ms'),
      roughness_kv: figure(0.05, 0.01, 'kV'),
      coil_cycles: figure(4, 1, 'cycles'),
    },
  }
}

function engineOf(lean: number | undefined): NonNullable<Result['engine']['before']> {
  return {
    pattern: lean === undefined ? 'none' : `cylinder ${lean}`,
    cylinders: lean === undefined ? [] : [lean],
    says:
      lean === undefined
        ? said('pattern.none', 'All cylinders judged are in order.')
        : said(
            'pattern.cylinder',
            `Only cylinder ${lean} stands out (lean): this points at something that cylinder has for itself.`,
          ),
    speed: {
      mean_rpm: plain(702, 4, 'rpm'),
      spread_rpm: plain(9, 1, 'rpm'),
      swing_rpm: plain(28, 4, 'rpm'),
      swing_period_s: plain(3.7, 0.2, 's'),
    },
  }
}

const STEPS = [
  'code',
  'trim',
  'spray',
  'spray',
  'spray',
  'cap',
  'gas',
  'compression',
  'smoke',
  'fuel-pressure',
  'vacuum',
  'note',
] as const

function testOf(
  i: number,
  { total, lean, foreign }: { total: number; lean: number; foreign: boolean },
): TestRecord {
  const isRepair = total > 2 && i === total - 2
  const step = isRepair ? 'repair' : STEPS[i % STEPS.length]!
  const hours = 9 + Math.floor(i / 6)
  const day = i >= total - 2 ? '05' : '04'
  const base: TestRecord = {
    mark: `T${i + 1}`,
    instant: null,
    at: `2026-03-${day}T${String(hours % 24).padStart(2, '0')}:${String((i % 6) * 10).padStart(2, '0')}:00-05:00`,
    step,
    place: null,
    stage: day === '05' && !isRepair ? 'after' : 'before',
    condition: 'idle',
    lines: [i + 2],
    readings: [],
    computed: {},
    finding: 'recorded',
    effect: null,
    p_value: null,
    trace: null,
    from_s: null,
    to_s: null,
    outcome: null,
    note: null,
    observed: false,
    meaning: [],
  }
  const place =
    foreign && i % 5 === 2
      ? 'Ansaugkr\u00fcmmerdichtungsflanschverschraubung hinten links am f\u00fcnften Zylinder'
      : `intake joint at cylinder ${1 + ((i + lean) % 6)}`
  switch (step) {
    case 'repair':
      return { ...base, place: `intake joint at cylinder ${lean}`, note: 'Joint renewed, part EX-55-01' }
    case 'code':
      return {
        ...base,
        readings: [reading('P0171', null, null)],
        meaning: [said('code', 'P0171: system too lean, bank 1 (generic meaning).')],
      }
    case 'trim':
      return {
        ...base,
        readings: [reading('STFT1', 9.4, '%', [-10, 10]), reading('LTFT1', 14.1, '%', [-10, 10])],
        computed: { totalTrimBank1: plain(23.5, 1.1, '%') },
        finding: 'out of limits',
        effect: plain(23.5, 1.1, '%'),
        meaning: [
          said('trim', 'The engine adds fuel at idle: air enters that is not measured, or fuel is short.'),
        ],
      }
    case 'spray':
    case 'cap':
      return {
        ...base,
        place,
        readings: [reading('propane', null, null)],
        finding: i % 4 === 2 ? 'response' : 'no response',
        effect: plain(i % 4 === 2 ? 78 : 3, 9, 'rpm'),
        p_value: 0.012,
        instant: `R1\u00b7${(12 + 16 * i).toFixed(1)}\u00a0s`,
        trace: 'traces/spray-1.csv',
        from_s: 12 + 16 * i,
        to_s: 15 + 16 * i,
        computed: { change: plain(i % 4 === 2 ? 78 : 3, 9, 'rpm') },
        meaning: [
          said(
            'spray',
            i % 4 === 2
              ? 'Speed rose while this place was sprayed: it leaks.'
              : 'Speed did not change beyond its usual swing.',
          ),
        ],
      }
    case 'gas':
      return {
        ...base,
        readings: [
          reading('CO', 0.21, '%vol'),
          reading('CO2', 13.1, '%vol'),
          reading('HC', 240, 'ppm'),
          reading('O2', 2.6, '%vol'),
        ],
        computed: { lambda: plain(1.112, 0.014, 'lambda') },
        finding: 'out of limits',
        effect: plain(1.112, 0.014, 'lambda'),
        meaning: [said('gas', 'More air than the fuel needs.')],
      }
    case 'compression':
      return {
        ...base,
        readings: [1, 2, 3, 4].map((n) => reading(`cylinder ${n}`, 1180 + 10 * n, 'kPa', [1000, 1300])),
        finding: 'in limits',
        computed: { lowestToHighest: plain(97, 1, '%') },
        meaning: [said('compression', 'All cylinders hold their pressure.')],
      }
    case 'smoke':
      return {
        ...base,
        place,
        outcome: 'leak',
        observed: true,
        finding: 'response',
        meaning: [said('smoke', 'Smoke was seen at this place.')],
      }
    default:
      return { ...base, note: 'Fuel tank half full, weather dry, engine warm to the touch at the outset' }
  }
}

const reading = (
  name: string,
  value: number | null,
  unit: string | null,
  [low, high]: [number | null, number | null] = [null, null],
) => ({
  reading: name,
  value,
  unit,
  expected_low: low,
  expected_high: high,
  finding: low === null ? null : 'out of limits',
})

function ledgerOf(lean: number | undefined): Result['ledger'] {
  const push = (text: string) => said('report.causes.rank', text)
  const origin = said('standing.judgement', 'Priors and likelihoods are invented for this sample.')
  if (lean === undefined)
    return {
      kind: 'nothing',
      standing: said('standing.nothing', 'Nothing bears on a cause yet.'),
      rest_probability: 0,
      entries: [],
      sensitivity: [],
      contradictions: [],
      ruled_out: [],
      chain: [],
      overridden: null,
      origin,
    }
  const first = {
    id: 'runner-joint-leak',
    place: `cylinder ${lean}`,
    name: `Leaking joint of an intake runner: cylinder ${lean}`,
  }
  return {
    kind: 'clear',
    standing: said('standing.clear', `The joint of cylinder ${lean} stands clear with 81 %.`),
    rest_probability: 0,
    origin,
    entries: [
      {
        says: push('Speed rose when the joint was sprayed.'),
        group: 'place',
        power: 1,
        tests: [2],
        factors: [12, 1, 1],
      },
    ],
    sensitivity: [push('Without the spray, the injector would stand first.')],
    contradictions: [],
    overridden: push('The shop\u2019s own values were used for: evidence.spray-response.'),
    ruled_out: [
      {
        id: 'fuel-pressure-low',
        name: push('Low fuel pressure'),
        probability: 0.01,
        by: [{ says: push('Fuel pressure is in limits.'), factor: 0.12 }],
      },
    ],
    chain: [
      { after: 'captures', test: null, moved: true, ...first, probability: 0.4 },
      { after: 'test', test: 2, moved: true, ...first, probability: 0.81 },
    ],
  }
}

function causesOf(lean: number): Result['causes'] {
  const push = (text: string) => said('push', text)
  return [
    {
      id: 'runner-joint-leak',
      place: `cylinder ${lean}`,
      probability: 0.81,
      name: said('cause.runner-joint-leak', 'Leaking joint of an intake runner'),
      for: [
        push('Speed rose when the joint was sprayed (12 to 1).'),
        push('Only one cylinder is lean (4 to 1).'),
      ],
      against: [],
    },
    {
      id: 'injector-restricted',
      place: `cylinder ${lean}`,
      probability: 0.14,
      name: said('cause.injector-restricted', 'Restricted injector'),
      for: [push('Only one cylinder is lean (4 to 1).')],
      against: [push('A restricted injector does not answer to spray (1 to 9).')],
    },
    {
      id: 'fuel-pressure-low',
      place: null,
      probability: 0.05,
      name: said('cause.fuel-pressure-low', 'Low fuel pressure'),
      for: [],
      against: [push('Fuel pressure is in limits (1 to 8).')],
    },
  ]
}

function repairOf(
  { after, cylinders, lean, bare }: { after: boolean; cylinders: number; lean: number; bare: boolean },
  random: Random,
): Result['repair'] {
  const work = bare ? [] : [`intake joint at cylinder ${lean}: Joint renewed, part EX-55-01`]
  if (!after)
    return {
      verdict: 'not checked',
      says: said(
        'repair.not-checked',
        'The repair was not checked: there is no capture taken after it that can be judged.',
      ),
      work,
      conditions: [],
      readings: [],
      cylinders: [],
    }
  return {
    verdict: 'repair confirmed',
    work,
    conditions: [],
    readings: [
      {
        name: 'totalTrimBank1',
        condition: 'idle',
        before: plain(24, 3, '%'),
        after: plain(2, 3, '%'),
        change: plain(-22, 4.2, '%'),
      },
    ],
    says: said(
      'repair.repair-confirmed',
      `The captures taken after the repair show every cylinder that was out of order back in order (${lean}).`,
    ),
    cylinders: Array.from({ length: cylinders }, (_, i) => ({
      cylinder: i + 1,
      before: i + 1 === lean ? 'lean' : 'level',
      after: 'level',
      verdict: i + 1 === lean ? ('repair confirmed' as const) : ('no change' as const),
      shifts: {
        late_rise_pct: plain(i + 1 === lean ? -31 : random.gaussian(), 4, '%'),
        burn_ms: plain(i + 1 === lean ? 0.2 : 0.01, 0.04, 'ms'),
        firing_kv: i === 1 ? { absent: 'under-sampled' } : plain(i + 1 === lean ? -1.5 : 0.1, 0.4, 'kV'),
        mid_kv: plain(0.02, 0.05, 'kV'),
      },
    })),
  }
}

function pageOneOf(it: {
  after: boolean
  cylinders: number
  lean: number
}): Result['conclusion']['page_one'] {
  const { after, cylinders, lean } = it
  return {
    found: [
      said('summary.lean-one', `Cylinder ${lean} burns with too much air for its fuel (a lean mixture).`),
      said('page.found.leak', `The engine answered when we tested here: intake joint at cylinder ${lean}.`),
    ],
    sure: [
      said(
        'summary.looked',
        `We recorded ${58 * cylinders} sparks on the engine\u2019s ${cylinders} cylinders.`,
      ),
    ],
    mended: [
      after
        ? said('page.mended.yes', 'Yes: what was out of order was recorded again and is back in order.')
        : said('page.mended.nothing-after', 'Not shown yet: nothing was recorded after the work.'),
    ],
    unchecked: [
      said(
        'report.customer.by-ear',
        'Some tests rest on what the technician saw or heard. They are marked inside.',
      ),
    ],
    driving: [],
    next: [],
  }
}

const LIMITS: Result['limits'] = [
  {
    key: 'lateRisePct',
    value: 20,
    unit: '%',
    meaning: 'late rise beyond which a spark line counts as climbing (lean) or falling',
    origin: 'shop-practice',
    changed: false,
  },
  {
    key: 'minEvents',
    value: 10,
    unit: '1',
    meaning: 'fewest complete events a verdict may rest on',
    origin: 'shop-practice',
    changed: false,
  },
  {
    key: 'startExcessPct',
    value: 60,
    unit: '%',
    meaning: 'start of the line above the other cylinders that tells of resistance outside',
    origin: 'project-judgement',
    changed: true,
  },
]
const SOURCES: Result['sources'] = [
  { key: 'shop-practice', text: 'common practice in the trade, no published source' },
  { key: 'project-judgement', text: 'this project\u2019s own judgement, stated openly and open to change' },
]
const METHOD: Result['method'] = [
  'Captures were read at their own sample rate; 10 000 000 samples in all.',
  'Breakdowns were found where the voltage climbs faster than 40 times its usual noise.',
  'Each event was laid to a cylinder by the sync channel and the firing order.',
  'Levels of the spark line were taken at 10, 50 and 90 % of the burn, each as a local median.',
  'Medians over the events of each cylinder carry a 95 % interval by rank, joined with the instrument\u2019s uncertainty as JCGM 100 does.',
].map((text, i) => ({ step: `step-${i + 1}`, says: said(`method.step-${i + 1}`, text), settings: {} }))

function inputsOf(stages: readonly string[], photos: number, bare: boolean): Result['inputs'] {
  const files = [
    'job.yaml',
    ...(bare ? [] : ['test-log.csv', 'traces/spray-1.csv']),
    ...stages.map((stage) => `captures/idle-${stage}.csv`),
    ...Array.from({ length: photos }, (_, i) => `photos/p${i + 1}.png`),
  ]
  return files.map((file, i) => ({ file, sha256: sha(file), bytes: 1234 * (i + 1) ** 4 }))
}

/** One lean cylinder, mended where there are captures after. */
function conclusionOf(it: { lean: number; after: boolean; cylinders: number }): Result['conclusion'] {
  const { lean, after } = it
  const says = (text: string) => ({ key: 'headline.sample', args: {}, text })
  const found = {
    id: 'F1',
    state: 'as found' as const,
    kind: 'mixture' as const,
    order: 'out of order' as const,
    where: { scope: 'cylinders' as const, bank: null, cylinders: [lean], place: null },
    unsure: [],
    condition: 'idle',
    reading: null,
    direction: 'lean' as const,
    size: { value: 33, low: 30, high: 36, unit: '%', limit_low: -20, limit_high: 20 },
    sure: 'measured' as const,
    why: null,
    marks: [`C1·${lean}`],
    explained_by: null,
  }
  const asFound = { class: 'fault' as const, findings: ['F1'], not_read_again: [], says: [says('lean')] }
  return {
    findings: [found],
    as_found: asFound,
    now: after ? { class: 'in order', findings: [], not_read_again: [], says: [says('in order')] } : asFound,
    faults: [],
    stated: [],
    repair: {
      verdict: after ? 'repair confirmed' : 'not checked',
      why: after ? 'confirmed' : 'nothing-after',
      reason: says('reason'),
      remarks: [],
      rests_on: after ? 'captures' : 'nothing',
      supports: after ? ['F1'] : [],
      opposes: [],
      not_read_again: [],
      left: [],
    },
    next: { kind: 'none', id: null, place: null, minutes: null },
    headline: { parts: [{ part: 'found', says: says('lean') }], text: 'lean' },
    page_one: pageOneOf(it),
  }
}
