import type { Circumstances, Evidence } from '../../src/verdicts/evidence.ts'
import type { Interval, Unit } from '../../src/units/measured.ts'

/** An interval of the given half width. */
export const around = (value: number, half: number, unit: Unit = '%'): Interval => ({
  value,
  low: value - half,
  high: value + half,
  unit,
})

const NAMES = [
  'lateRisePct',
  'againstLevelPct',
  'firingKv',
  'burnMs',
  'startExcessPct',
  'earlyDropExcessPct',
  'earlyDropPct',
  'fallsFirstPct',
  'burnExcessPct',
  'noLineSharePct',
  'wentOutSharePct',
  'noLineTopKv',
  'noLineTopExcessKv',
  'noLineTopExcessPct',
  'noLineTopLastsMs',
  'eventCount',
  'lineCount',
] as const satisfies readonly (keyof Evidence)[]

/** Evidence of a healthy cylinder with 40 events; a test changes what it is about. */
export function healthy(changes: { [N in keyof Evidence]?: Interval | undefined } = {}): Evidence {
  const base: Partial<Record<keyof Evidence, Interval>> = {
    lateRisePct: around(3, 2),
    firingKv: around(9, 0.5, 'kV'),
    burnMs: around(1.4, 0.03, 'ms'),
    startExcessPct: around(0, 3),
    earlyDropExcessPct: around(0, 1),
    burnExcessPct: around(0, 2),
    noLineSharePct: { value: 0, low: 0, high: 8.8, unit: '%' },
    wentOutSharePct: { value: 0, low: 0, high: 8.8, unit: '%' },
    earlyDropPct: around(10, 1),
    fallsFirstPct: around(11, 2),
    eventCount: around(40, 0, '1'),
    lineCount: around(40, 0, '1'),
  }
  return Object.fromEntries(
    NAMES.map((name) => {
      const changed = name in changes ? changes[name] : base[name]
      return [name, changed ? { ok: true, interval: changed } : { ok: false, why: 'not-applicable' }]
    }),
  ) as unknown as Evidence
}

export const nothingKnown: Circumstances = {
  cylinder: 1,
  running: 'idle',
  noLineTopsClipped: false,
  compression: undefined,
  remarks: [],
}
