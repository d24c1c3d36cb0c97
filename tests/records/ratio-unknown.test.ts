import { expect, test } from 'vitest'
import { judgeCapture } from '../../src/chain/judge-capture.ts'
import { eventRows } from '../../src/chain/phases/draw.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { distributorCapture, withCylinders } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { eventsCsv } from '../../src/records/events-csv.ts'
import { cylinderRecord } from '../../src/records/parts/cylinder-record.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { engineOf } from '../support/judge-simulated.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/** Truth: cylinder 3 lean by the simulation; the pickup's ratio, which the job does not state, by hand. */
const RATIO = 1.37e-4
const TEXTS = loadTexts('en')

function recorded(stated: boolean) {
  const base = distributorCapture({ cylinders: 4, seed: 31, durationS: 2.2 })
  const parameters = withCylinders(base, new Map([[3, { mixtureKv: 0.9 }]]))
  const whole = asCapture(
    simulateCapture({ ...parameters, recorder: { ...parameters.recorder, sampleHz: 400_000 } }),
  )
  const channels = whole.channels.map((c) =>
    stated || c.entry.carries !== 'secondary'
      ? c
      : {
          ...c,
          entry: { ...c.entry, unit: 'V' as const },
          data: c.data.map((v) => RATIO * v),
          quantum: RATIO * c.quantum,
          limits: c.limits && ([RATIO * c.limits[0], RATIO * c.limits[1]] as const),
        },
  )
  const capture = { ...whole, channels, entry: { ...whole.entry, channels: channels.map((c) => c.entry) } }
  const engine = engineOf(parameters)
  return judgeCapture(capture, {
    engine,
    instrument: { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 },
    limits: loadLimits(),
    texts: TEXTS,
  })
}

const known = recorded(true)
const unknown = recorded(false)

test('a pickup of unknown ratio: the same verdicts, oscillations and late rises', () => {
  const said = ({ judged }: typeof known) => judged.map((j) => j.judgement.verdict)
  expect(said(unknown)).toEqual(said(known))
  expect(said(unknown)).toEqual(['level', 'level', 'lean', 'level'])
  known.judged.forEach(({ measures: { figures } }, i) => {
    const own = unknown.judged[i]!.measures.figures
    if (!figures.coilCycles.ok || !own.coilCycles.ok) throw new Error('no oscillations')
    // Against 0.3 kV a signal of some hundred millivolts would count none.
    expect(Math.abs(own.coilCycles.value - figures.coilCycles.value)).toBeLessThanOrEqual(0.5)
    expect(own.coilCycles.value).toBeGreaterThan(1)
  })
})

test('no kV in its records: cylinders, events, channels, remarks', () => {
  for (const cylinder of unknown.judged.map((j) => cylinderRecord(TEXTS, j, 'C1'))) {
    expect(JSON.stringify(cylinder)).not.toContain('kV"')
    expect(cylinder.figures['firing_kv']).toEqual({ absent: 'ratio-unknown' })
    expect(cylinder.figures['late_rise_pct']).toHaveProperty('value')
    expect(JSON.stringify([cylinder.reason.text, cylinder.apart])).not.toContain('kV')
  }
  const { channels } = unknown.measured.record
  const secondary = channels.find((c) => c.carries === 'secondary')!
  expect(secondary.unit).toBe('V')
  expect(secondary.quantum).toBeCloseTo(1000 * RATIO * known.measured.record.channels[0]!.quantum, 4)
  const [head, ...rows] = eventsCsv(eventRows([unknown.measured]))
    .trim()
    .split('\r\n')
    .join('\n')
    .split('\n')
    .map((row) => row.split(','))
  const kv = head!.flatMap((name, i) => (/_kv/.test(name) ? [i] : []))
  expect(kv.length).toBeGreaterThan(7)
  for (const row of rows) expect(kv.map((i) => row[i])).toEqual(kv.map(() => ''))
})

test('its lines are drawn as shares of their own middle, in the shape of the others', () => {
  unknown.measured.drawn.forEach(({ median: line, relative, marks }, i) => {
    const other = known.measured.drawn[i]!
    expect([relative, other.relative]).toEqual([true, undefined])
    const at = (y: readonly number[], k: number) => y[k]! / y[Math.floor(y.length / 3)]!
    for (const k of [5, 40, 60]) expect(at(line.y, k)).toBeCloseTo(at(other.median.y, k), 1)
    expect(marks[1]!.kv).toBeGreaterThan(60)
    expect(marks[1]!.kv).toBeLessThan(160)
  })
})
