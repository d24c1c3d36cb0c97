import { expect, test } from 'vitest'
import { preambleOf } from '../../src/capture/preamble.ts'
import { recognise } from '../../src/capture/dialect.ts'

/** What is read from lines above two columns of figures. */
function facts(lines: readonly string[], separator = ',') {
  const rows = Array.from({ length: 30 }, (_, i) =>
    [(i % 3) + 0.5, ((i * 7) % 5) + 0.25]
      .map((v) => (separator === ';' ? String(v).replace('.', ',') : String(v)))
      .join(separator),
  )
  const bytes = Buffer.from([...lines, ['ch_a', 'ch_b'].join(separator), ...rows, ''].join('\n'))
  const head = { bytes, whole: true, encoding: { encoding: 'utf-8' as const, markBytes: 0, evidence: '' } }
  const found = recognise(head, { file: 'x.csv', names: [], words: [] })
  if (!found.ok) throw new Error('no dialect')
  return preambleOf({ head, dialect: found.dialect })
}

// Words as recorders' manuals in each language use them: common practice, no source.
test.each([
  ['Sample interval,2 us', ',', 500_000],
  ['Sample Interval (us),2', ',', 500_000],
  ['Sample interval: 2.0E-06', ',', 500_000],
  ['Sampling rate = 500 kS/s', ',', 500_000],
  ['500 kS/s', ',', 500_000],
  ['Time step,2.0000E-0006 s', ',', 500_000],
  ['Abtastintervall;2 µs', ';', 500_000],
  ['Abtastintervall;0,002 ms', ';', 500_000],
  ['Abtastrate [kHz];500', ';', 500_000],
  ["Fréquence d'échantillonnage;500 kHz", ';', 500_000],
  ["Période d'échantillonnage;2 µs", ';', 500_000],
  ['Frecuencia de muestreo;500 kHz', ';', 500_000],
  ['Intervalo de muestreo;2 us', ';', 500_000],
  ['Intervallo di campionamento: 2 \u00b5s', ';', 500_000],
  ['Passo di campionamento;2 us', ';', 500_000],
  ['Frequenza di campionamento = 500000 Hz', ';', 500_000],
  ['Dur\u00e9e entre points : 2 \u00b5s', ';', 500_000],
  ['Zeit zwischen Punkten;2 \u00b5s', ';', 500_000],
  ['Acquisition rate,500 kS/s', ',', 500_000],
  ['Erfassungsrate;500 kHz', ';', 500_000],
  ['Frecuencia de muestreo;500.000 Hz', ';', 500_000],
  ['Sample rate: 500 000 Hz', ';', 500_000],
  ['Sample rate: 2.500 kHz', ',', 2500],
])('%s', (line, separator, hz) => expect(facts([line], separator).rate?.hz).toBeCloseTo(hz, 3))

test('names on one line, figures on the next', () =>
  expect(facts(['X,CH1,Start,Increment', 'Sequence,Volt,-1.0e-03,2.0e-06']).rate?.hz).toBeCloseTo(500_000, 3))

test.each([
  [['Trigger delay,2 us'], 'another time'],
  [['Sample interval,2 us', 'Sample rate,100 kS/s'], 'two that contradict each other'],
  [['Sample interval,fast'], 'no figure'],
  [['Sample interval,5'], 'no unit'],
])('%j says no rate: %s', (lines) => expect(facts(lines).rate).toBeUndefined())

test.each([
  [['Date,2026-03-04', 'Time,09:12:00'], '2026-03-04T09:12:00'],
  [['Datum;04.03.2026 09:12'], '2026-03-04T09:12'],
  [['Date,3/13/2026', 'Time,9:12 pm'], '2026-03-13T21:12'],
  [['Date,3/4/2026', 'Time,9:12'], undefined],
])('%j was taken at %s', (lines, at) =>
  expect(facts(lines, lines[0]!.includes(';') ? ';' : ',').taken).toBe(at),
)

const KV = { channel: 1, perCount: 0.01, unit: 'kV' }
const V = { channel: 2, perCount: 0.005, unit: 'V' }
test.each([
  [['Channel 1 scale,0.01 kV/count,offset 2048', 'Channel 2 scale,0.005 V/count'], ',', [KV, V]],
  [['Channel A: 0.01 kV/LSB', 'Channel B: 0.005 V/LSB'], ',', [KV, V]],
  [['Kanal;Skalierung;Einheit', 'CH1;0,01;kV', 'CH2;0,005;V'], ';', [KV, V]],
  [['Scale,0.01 kV,0.005 V'], ',', [KV, V]],
  [['Fattore;0,01;0,005', 'Unit\u00e0;kV;V'], ';', [KV, V]],
  [['Vertical scale,5 kV/div'], ',', []],
  [['Trigger level,3 kV'], ',', []],
])('%j: what a count is', (lines, separator, scales) =>
  expect(facts(lines, separator).scales).toEqual(
    scales.map((each) => expect.objectContaining(each) as unknown),
  ),
)
