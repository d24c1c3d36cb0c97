import { gzipSync } from 'node:zlib'
import {
  distributorCapture,
  plugTopCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { GOOD_RECORDER } from '../../src/model/recorder.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'

/**
 * Exports in styles made up here, of no recorder in particular: what recorders do to their files, put together anew. The
 * engines are the model's, invented: cylinder 2 of the distributor engine is lean, cylinder 3 of the one with four coils.
 */
export interface UnseenExport {
  /** What is odd about it. */
  style: string
  files: readonly { name: string; bytes: Uint8Array }[]
  /** What somebody has to say beside it, as on the command line. */
  said?: { rate?: number; engine?: string }
  /** Cylinder made lean, or what stands in the one clear question. */
  ends: { lean: number } | { asks: RegExp }
  /** Secondary of the first file, kV; left out where the file does not say what a figure of it stands for. */
  truth?: ArrayLike<number> | undefined
}

const RATE = 200_000
const STEP_S = 1 / RATE
const recorder = { ...GOOD_RECORDER, sampleHz: RATE }
const lean = (p: CaptureParameters, cylinder: number): CaptureParameters =>
  withCylinders(p, new Map([[cylinder, { mixtureKv: 0.75 }]]))

type Write = (value: number) => string
type Column = readonly string[]

/** Text of every sample; a digitised channel has few values, each is written once. */
function column(data: ArrayLike<number>, write: Write): Column {
  const known = new Map<number, string>()
  return Array.from(data, (value) => {
    const text = known.get(value) ?? write(value)
    known.set(value, text)
    return text
  })
}

const fixed =
  (decimals: number, per = 1): Write =>
  (v) =>
    (v * per).toFixed(decimals)
const comma =
  (write: Write): Write =>
  (v) =>
    write(v).replace('.', ',')
/** `1.234E-0003`: as many digits of exponent as are asked for. */
const exponent =
  (digits: number, places: number, per = 1): Write =>
  (v) => {
    const [mantissa, power] = (v * per).toExponential(places).split('e') as [string, string]
    return `${mantissa}E${power[0]}${power.slice(1).padStart(digits, '0')}`
  }
const counts =
  (step: number, zero: number): Write =>
  (v) =>
    String(zero + Math.round(v / step))
const hex =
  (step: number, zero: number, prefix: string): Write =>
  (v) =>
    prefix + (zero + Math.round(v / step)).toString(16).toUpperCase().padStart(4, '0')

const times = (rows: number, write: Write, fromS = 0): Column =>
  Array.from({ length: rows }, (_, i) => write(fromS + i * STEP_S))
const iso = (i: number): string => {
  const us = i * 5
  return `2026-03-05T09:12:${String(10 + Math.floor(us / 1e6)).padStart(2, '0')}.${String(us % 1e6).padStart(6, '0')}`
}

function table(
  head: readonly string[],
  columns: readonly Column[],
  { by = ',', end = '\n', foot = [] as readonly string[] } = {},
): string {
  const lines: string[] = [...head]
  const rows = columns[0]!.length
  for (let i = 0; i < rows; i++) lines.push(columns.map((c) => c[i]!).join(by))
  return [...lines, ...foot, ''].join(end)
}

const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8')
const latin1 = (text: string): Uint8Array => Buffer.from(text, 'latin1')
const utf16le = (text: string): Uint8Array => Buffer.from(`\ufeff${text}`, 'utf16le')
const utf16be = (text: string): Uint8Array => Buffer.from(utf16le(text)).swap16()

/** @param durationS  of each recording: a second shows what a file is, two are enough to judge by */
export function unseenExports(durationS: number): UnseenExport[] {
  const distributor = simulateCapture({
    ...lean(distributorCapture({ cylinders: 4, seed: 71, durationS, rpm: 850 }), 2),
    recorder,
  })
  const coils = simulateCapture({
    ...lean(plugTopCapture({ cylinders: 4, seed: 72, durationS, rpm: 850 }), 3),
    recorder,
  })
  const [kv, sync] = distributor.channels.map(({ data }) => data) as [Float64Array, Float64Array]
  const rows = kv.length
  const kv3 = column(kv, fixed(3))
  const v2 = column(sync, fixed(2))
  const kvComma = column(kv, comma(fixed(3)))
  const vComma = column(sync, comma(fixed(2)))
  const s6 = times(rows, fixed(6))
  // A time of day is read slower than a figure: a few turns show that it is read.
  const timed = durationS < 1.5 ? Math.min(rows, 0.45 * RATE) : rows
  const flat = Array.from({ length: rows }, (_, i) => ((i * 7919) % 3 === 0 ? '0.01' : '0.00'))
  const one = (
    style: string,
    name: string,
    bytes: Uint8Array,
    rest: Partial<UnseenExport> = {},
  ): UnseenExport => ({ style, files: [{ name, bytes }], ends: { lean: 2 }, ...rest })
  const cut = (from: number, to: number, ...columns: Column[]): Column[] =>
    columns.map((c) => c.slice(from, to))

  /** Stretches that a triggered recorder keeps: whole turns of the engine. */
  const stretch = Math.round(0.16 * RATE)
  const starts = Array.from({ length: Math.floor(rows / (stretch + 400)) }, (_, i) => i * (stretch + 400))

  const perCoil = coils.channels.map(({ data }) => data)
  const framesOf = (cylinder: number): number[] =>
    coils.truth.events
      .filter((e) => e.cylinder === cylinder)
      .map((e) => Math.round((e.breakdownS - 0.006) * RATE))
      .filter((from) => from >= 0 && from + 0.012 * RATE < coils.rows)
  const frameRows = Math.round(0.012 * RATE)
  const frameColumns = (cylinder: number): Column[] =>
    framesOf(cylinder).map((from) =>
      column(perCoil[cylinder - 1]!.subarray(from, from + frameRows), fixed(3)),
    )

  const framed = Float64Array.from(starts.flatMap((from) => [...kv.subarray(from, from + stretch)]))
  const third = Float64Array.from(
    framesOf(3).flatMap((from) => [...perCoil[2]!.subarray(from, from + frameRows)]),
  )
  const framesOnly = {
    said: { engine: '4 cyl, 1-3-4-2, coil on plug, E10' },
    ends: { lean: 3 },
    truth: third,
  }

  return [
    one(
      'the trade’s words, the time last',
      'before.csv',
      utf8(table(['HT lead [kV];No. 1 clamp [V];Zeit [s]'], [kv3, v2, s6], { by: ';' })),
    ),
    one(
      'a German preamble with the rate, decimal commas, no time',
      'Leerlauf vor.csv',
      utf8(
        table(
          [
            'Messung: Leerlauf warm',
            'Abtastrate: 200 kHz',
            'Kanal 1: Z\u00fcndspannung',
            'Kanal 2: Triggerzange',
            '',
            'Z\u00fcndspannung [kV];Triggerzange Zyl. 1 [V]',
          ],
          [kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'a French preamble, milliseconds',
      'ralenti avant.csv',
      utf8(
        table(
          [
            'Enregistrement;ralenti',
            'Date;05/03/2026',
            'Heure;09:12:00',
            'Fr\u00e9quence d\u2019\u00e9chantillonnage;200 kHz',
            'Temps (ms);Haute tension (kV);Pince cyl. 1 (V)',
          ],
          [times(rows, comma(fixed(3, 1e3))), kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'a French preamble with the period alone',
      'avant.csv',
      latin1(
        table(
          [
            'Dur\u00e9e entre points : 5 \u00b5s',
            'Voie A : haute tension',
            'Voie B : pince',
            'Voie A (kV);Voie B (V)',
          ],
          [kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'a Spanish preamble, tabs',
      'antes.txt',
      utf8(
        table(
          [
            'Per\u00edodo de muestreo:\t5 \u00b5s',
            'Fecha:\t05/03/2026',
            'Alta tensi\u00f3n (kV)\tPinza cil. 1 (V)',
          ],
          [kv3, v2],
          { by: '\t' },
        ),
      ),
    ),
    one(
      'a Spanish rate with its thousands',
      'ralent\u00ed antes.csv',
      utf8(
        table(['Frecuencia de muestreo;200.000 Hz', 'Canal 1 (kV);Canal 2 (V)'], [kvComma, vComma], {
          by: ';',
        }),
      ),
    ),
    one(
      'an Italian preamble with the interval',
      'minimo prima.csv',
      utf8(
        table(
          [
            'Registrazione: minimo caldo',
            'Intervallo di campionamento: 5 \u00b5s',
            'Tensione di accensione (kV);Pinza cil. 1 (V)',
          ],
          [kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'an Italian rate in Latin letters of one byte',
      'prima.csv',
      latin1(
        table(
          ['Frequenza di campionamento = 200000 Hz', 'Unit\u00e0: kV, V', 'Canale 1 (kV);Canale 2 (V)'],
          [kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'exponents of four digits',
      'idle.csv',
      utf8(
        table(
          ['TIME,CH1,CH2', 's,kV,V'],
          [times(rows, exponent(4, 6)), column(kv, exponent(4, 3)), column(sync, exponent(4, 2))],
        ),
      ),
    ),
    one(
      'exponents of three digits, the time in us',
      'idle.csv',
      utf8(
        table(
          ['Time [us],Secondary [kV],Cyl 1 [V]'],
          [times(rows, exponent(3, 8, 1e6)), column(kv, exponent(3, 3)), column(sync, exponent(3, 2))],
        ),
      ),
    ),
    one(
      'two bytes a letter, tabs',
      'idle.txt',
      utf16le(table(['Time (s)\tIgnition (kV)\tTrigger (V)'], [s6, kv3, v2], { by: '\t', end: '\r\n' })),
    ),
    one(
      'two bytes a letter, the other way round',
      'idle.csv',
      utf16be(
        table(['Time (s);Ignition (kV);Trigger (V)'], [s6.map((t) => t.replace('.', ',')), kvComma, vComma], {
          by: ';',
        }),
      ),
    ),
    one(
      'a mark at the start, every cell quoted',
      'idle.csv',
      utf8(
        '\ufeff' +
          table(
            ['"Time (s)","Ignition (kV)","Trigger (V)"'],
            [s6, kv3, v2].map((c) => c.map((cell) => `"${cell}"`)),
          ),
      ),
    ),
    one(
      'a row of units in brackets',
      'idle.csv',
      utf8(
        table(
          ['Zeit;Kanal A;Kanal B', '[ms];[kV];[V]', ''],
          [times(rows, comma(fixed(3, 1e3))), kvComma, vComma],
          { by: ';' },
        ),
      ),
    ),
    one(
      'a row of unit words',
      'idle.csv',
      utf8(table(['x-axis,1,2', 'second,kilovolt,Volt'], [s6, kv3, v2])),
    ),
    one(
      'segments that show as jumps of the time',
      'pre.csv',
      utf8(
        table(
          ['t (s),kv (kV),clamp (V)'],
          [s6, kv3, v2].map((c) => starts.flatMap((from) => c.slice(from, from + stretch))),
        ),
      ),
      { truth: framed },
    ),
    one(
      'blocks with a repeated head and preamble',
      'pre.csv',
      utf8(
        starts
          .map((from, i) =>
            table(
              [`Block ${i + 1}`, 'Trigger level,3 kV', 'Time (ms),Secondary (kV),Sync (V)'],
              [times(stretch, fixed(3, 1e3)), ...cut(from, from + stretch, kv3, v2)],
            ),
          )
          .join('\n'),
      ),
      { truth: framed },
    ),
    one(
      'blocks titled in German, no time',
      'vorher.csv',
      utf8(
        [
          'Abtastintervall;5 \u00b5s',
          ...starts.map((from, i) =>
            table(
              [`Aufnahme ${i + 1}`, 'Z\u00fcndung (kV);Zange (V)'],
              cut(from, from + stretch, kvComma, vComma),
              { by: ';' },
            ).trimEnd(),
          ),
          '',
        ].join('\n'),
      ),
      { truth: framed },
    ),
    one(
      'a column that numbers the segments, the time anew in each',
      'pre.csv',
      utf8(
        table(
          ['Segment,Time (ms),CH1 (kV),CH2 (V)'],
          [
            starts.flatMap((_, i) => Array.from({ length: stretch }, () => String(i + 1))),
            starts.flatMap(() => times(stretch, fixed(3, 1e3))),
            ...[kv3, v2].map((c) => starts.flatMap((from) => c.slice(from, from + stretch))),
          ],
        ),
      ),
      { truth: framed },
    ),
    one(
      'triggers with negative times in each block',
      'pre.csv',
      utf8(
        starts
          .map((from, i) =>
            table(
              [`Waveform ${i + 1}`, 'Time (s),CH1 (kV),CH2 (V)'],
              [times(stretch, fixed(6), -0.04), ...cut(from, from + stretch, kv3, v2)],
            ),
          )
          .join(''),
      ),
      { truth: framed },
    ),
    one(
      'one trigger, the time from before it',
      'pre.csv',
      utf8(table(['Time (ms),Secondary (kV),Sync (V)'], [times(rows, fixed(3, 1e3), -0.5), kv3, v2])),
    ),
    one(
      'one column a segment, with the time',
      'cylinder 3 before.csv',
      utf8(
        table(
          [['Time (ms)', ...frameColumns(3).map((_, i) => `Segment ${i + 1} (kV)`)].join(',')],
          [times(frameRows, fixed(3, 1e3)), ...frameColumns(3)],
        ),
      ),
      framesOnly,
    ),
    one(
      'one column a segment, no time, the interval above',
      'cyl 3.csv',
      utf8(
        table(
          [
            'Sample interval;5 us',
            frameColumns(3)
              .map((_, i) => `Frame ${i + 1}`)
              .join(';'),
          ],
          frameColumns(3),
          { by: ';' },
        ),
      ),
      framesOnly,
    ),
    {
      style: 'short files of one session',
      files: starts.map((from, i) => ({
        name: `shot_${String(i + 1).padStart(3, '0')}.csv`,
        bytes: utf8(
          table(
            ['Time (s),Secondary (kV),Sync (V)'],
            [times(stretch, fixed(6)), ...cut(from, from + stretch, kv3, v2)],
          ),
        ),
      })),
      ends: { lean: 2 },
    },
    {
      style: 'a file a coil',
      files: perCoil.map((data, i) => ({
        name: `coil ${i + 1}.csv`,
        bytes: utf8(table(['Time (s),Voltage (kV)'], [times(coils.rows, fixed(6)), column(data, fixed(3))])),
      })),
      ends: { lean: 3 },
    },
    one(
      'four coils by their numbers alone',
      'before.csv',
      utf8(
        table(
          ['time,1,2,3,4', 's,kV,kV,kV,kV'],
          [times(coils.rows, fixed(6)), ...perCoil.map((d) => column(d, fixed(3)))],
        ),
      ),
      { ends: { lean: 3 }, truth: perCoil[0] },
    ),
    one(
      'four coils named in German',
      'vorher.csv',
      utf8(
        table(
          ['Zeit (s);Spule Zyl. 1 (kV);Spule Zyl. 2 (kV);Spule Zyl. 3 (kV);Spule Zyl. 4 (kV)'],
          [times(coils.rows, comma(fixed(6))), ...perCoil.map((d) => column(d, comma(fixed(3))))],
          { by: ';' },
        ),
      ),
      { ends: { lean: 3 }, truth: perCoil[0] },
    ),
    one('no time and no rate', 'idle.csv', utf8(table(['Secondary (kV),Sync (V)'], [kv3, v2])), {
      ends: { asks: /--rate/ },
    }),
    one('no time, the rate said', 'idle.csv', utf8(table(['Secondary (kV),Sync (V)'], [kv3, v2])), {
      said: { rate: RATE },
    }),
    one(
      'counts in hex with what one is',
      'raw.csv',
      utf8(
        table(
          ['Sample rate,200 kS/s', 'CH1 scale,0.01 kV/count', 'CH2 scale,0.005 V/count', 'CH1,CH2'],
          [column(kv, hex(0.01, 2048, '0x')), column(sync, hex(0.005, 2048, '0x'))],
        ),
      ),
    ),
    one(
      'counts in bare hex',
      'raw.csv',
      utf8(
        table(
          [
            'Sample interval,5 us',
            'Format,hexadecimal',
            'CH1 scale,0.01 kV/count',
            'CH2 scale,0.005 V/count',
            'CH1,CH2',
          ],
          [column(kv, hex(0.01, 2048, '')), column(sync, hex(0.005, 2048, ''))],
        ),
      ),
    ),
    one(
      'whole counts, kV a bit',
      'raw.csv',
      utf8(
        table(
          ['Sample rate: 200 kS/s', 'Channel A: 0.01 kV/LSB', 'Channel B: 0.005 V/LSB', 'A,B'],
          [column(kv, counts(0.01, 0)), column(sync, counts(0.005, 0))],
        ),
      ),
    ),
    one(
      'whole counts, the scales in a table above',
      'raw.csv',
      utf8(
        table(
          ['Abtastintervall;5E-06 s', 'Kanal;Skalierung;Einheit', 'CH1;0,01;kV', 'CH2;0,005;V', 'CH1;CH2'],
          [column(kv, counts(0.01, 0)), column(sync, counts(0.005, 0))],
          { by: ';' },
        ),
      ),
    ),
    one(
      'the factors of the columns on a line of their own',
      'raw.csv',
      utf8(
        table(
          ['Interval,5e-6 s', 'Scale,0.01 kV,0.005 V', 'Sample,CH1,CH2'],
          [
            Array.from({ length: rows }, (_, i) => String(i)),
            column(kv, counts(0.01, 0)),
            column(sync, counts(0.005, 0)),
          ],
        ),
      ),
    ),
    one(
      'the time of day with its date',
      'idle.csv',
      utf8(
        table(
          ['Timestamp,Secondary (kV),Sync (V)'],
          [Array.from({ length: timed }, (_, i) => iso(i)), kv3, v2],
        ),
      ),
      { truth: kv.subarray(0, timed) },
    ),
    one(
      'the time of day',
      'idle.csv',
      utf8(
        table(
          ['Uhrzeit;Z\u00fcndung (kV);Zange (V)'],
          [Array.from({ length: timed }, (_, i) => iso(i).slice(11).replace('.', ',')), kvComma, vComma],
          { by: ';' },
        ),
      ),
      { truth: kv.subarray(0, timed) },
    ),
    one(
      'the time of day with a zone',
      'idle.csv',
      utf8(
        table(
          ['Time,Secondary (kV),Sync (V)'],
          [Array.from({ length: timed }, (_, i) => `${iso(i)}Z`), kv3, v2],
        ),
      ),
      { truth: kv.subarray(0, timed) },
    ),
    one(
      'nanoseconds',
      'idle.csv',
      utf8(table(['Time (ns),Secondary (kV),Sync (V)'], [times(rows, fixed(0, 1e9)), kv3, v2])),
    ),
    one(
      'microseconds, the unit not written',
      'idle.csv',
      utf8(table(['Time,Secondary,Sync'], [times(rows, fixed(0, 1e6)), kv3, v2])),
    ),
    one(
      'the unit of the time above the table',
      'idle.csv',
      utf8(
        table(
          ['Time unit: ms', 'Channel 1 unit: kV', 'Time,Channel 1,Channel 2'],
          [times(rows, fixed(3, 1e3)), kv3, v2],
        ),
      ),
    ),
    one(
      'a count of samples and the interval as a remark',
      'idle.csv',
      utf8(
        table(
          ['# dt = 5e-6 s', '# invented engine', 'n,secondary_kV,sync_V'],
          [Array.from({ length: rows }, (_, i) => String(i)), kv3, v2],
        ),
      ),
    ),
    one(
      'packed',
      'idle.csv.gz',
      gzipSync(table(['Time (s),Secondary (kV),Sync (V)'], [s6, kv3, v2]), { level: 1 }),
    ),
    one(
      'line ends of old, a separator at the end of each',
      'idle.csv',
      utf8(
        table(
          ['Time (s);Secondary (kV);Sync (V);'],
          [s6.map((t) => t.replace('.', ',')), kvComma, vComma.map((v) => `${v};`)],
          { by: ';', end: '\r' },
        ),
      ),
    ),
    one(
      'a footer',
      'idle.csv',
      utf8(
        table(['Time (s),Secondary (kV),Sync (V)'], [s6, kv3, v2], {
          foot: ['', 'End of data', `Rows: ${rows}`],
        }),
      ),
    ),
    one(
      'eight columns, most of nothing',
      'idle.csv',
      utf8(
        table(
          ['Time (s),CH1 (V),CH2 (V),CH3 (V),CH4 (kV),CH5 (V),CH6 (V),Note'],
          [s6, flat, flat, v2, kv3, flat, flat, flat.map(() => '')],
        ),
      ),
    ),
    one(
      'volts of a pickup, no ratio said',
      'idle.csv',
      utf8(table(['Time (s),Channel A (V),Channel B (V)'], [s6, kv3, v2])),
      { truth: undefined },
    ),
    one(
      'millivolts',
      'idle.csv',
      utf8(
        table(
          ['Time (ms),Channel A (mV),Channel B (mV)'],
          [times(rows, fixed(3, 1e3)), column(kv, fixed(1, 1e3)), column(sync, fixed(0, 1e3))],
        ),
      ),
      { truth: undefined },
    ),
    one(
      'firing lines downward',
      'idle.csv',
      utf8(table(['Time (s),Secondary (kV),Sync (V)'], [s6, column(kv, fixed(3, -1)), v2])),
      { truth: kv.map((v) => -v) },
    ),
    one(
      'words where it clipped',
      'idle.csv',
      utf8(
        table(
          ['Time (s),Secondary (kV),Sync (V)'],
          [s6, column(kv, (v) => (v > 7 ? 'OL' : v.toFixed(3))), v2],
        ),
      ),
      { truth: undefined },
    ),
    one('no header', 'idle.csv', utf8(table([], [s6, kv3, v2]))),
    one(
      'blanks between columns of one width',
      'idle.txt',
      utf8(
        table(
          ['     Time (s)   Secondary (kV)   Sync (V)'],
          [s6, kv3, v2].map((c) => c.map((cell) => cell.padStart(12))),
          { by: ' ' },
        ),
      ),
    ),
    one(
      'minutes and seconds from the start',
      'idle.csv',
      utf8(
        table(
          ['Elapsed,Secondary (kV),Sync (V)'],
          [s6.slice(0, timed).map((t) => `0:00:${t.padStart(9, '0')}`), kv3, v2],
        ),
      ),
      { truth: kv.subarray(0, timed) },
    ),
    one(
      'settings in columns beside the first rows',
      'idle.csv',
      utf8(
        table(
          [],
          [
            s6.map(
              (_, i) =>
                [
                  'Record Length,400000,points',
                  'Sample Interval,5.00E-06,s',
                  'Trigger Point,0,samples',
                  'Vertical Units,kV,',
                ][i] ?? ',,',
            ),
            s6,
            kv3,
            v2,
          ],
        ),
      ),
    ),
    one(
      'one long row a channel',
      'idle.csv',
      utf8(
        ['time', 'CH1', 'CH2']
          .map((name, c) => [name, ...[s6, kv3, v2][c]!.slice(0, 20_000)].join(','))
          .join('\n') + '\n',
      ),
      { ends: { asks: /row|column|long/i } },
    ),
    one(
      'a row a channel and sample',
      'idle.csv',
      utf8(
        table(
          ['channel,time,value'],
          [0, 1, 2].map((c) =>
            Array.from({ length: 2 * Math.min(rows, 100_000) }, (_, i) =>
              c === 0 ? `CH${(i % 2) + 1}` : c === 1 ? s6[i >> 1]! : (i % 2 === 0 ? kv3 : v2)[i >> 1]!,
            ),
          ),
        ),
      ),
      { ends: { asks: /time|channel/i } },
    ),
    {
      style: 'two files whose names and times do not tell the stage',
      files: ['scope_01.csv', 'scope_02.csv'].map((name, i) => ({
        name,
        bytes: utf8(
          table(
            ['Time (s),Secondary (kV),Sync (V)'],
            i === 0 ? [s6, kv3, v2] : cut(0, rows - 10, s6, kv3, v2),
          ),
        ),
      })),
      ends: { lean: 2 },
    },
  ]
}
