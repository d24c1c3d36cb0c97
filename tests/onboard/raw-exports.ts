import { captureText, type FileStyle } from '../../src/demo/capture-file.ts'
import {
  distributorCapture,
  plugTopCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { GOOD_RECORDER } from '../../src/model/recorder.ts'
import { simulateCapture, type SimulatedCapture } from '../../src/model/simulate-capture.ts'

/**
 * Files as recorders of several habits export them, of invented engines from the model: nothing but the export, no job.
 */

interface RawExport {
  /** Name as a technician leaves it. */
  name: string
  bytes: Uint8Array
}

const RATE = 200_000
const recorder = { ...GOOD_RECORDER, sampleHz: RATE }
const lean = (p: CaptureParameters, cylinder: number): CaptureParameters =>
  withCylinders(p, new Map([[cylinder, { mixtureKv: 0.75 }]]))
const four = (seed: number, durationS = 2.1): CaptureParameters => ({
  ...distributorCapture({ cylinders: 4, seed, durationS, rpm: 790 }),
  recorder,
})
const kv = (name: string) => ({ name, unit: 'kV', perUnit: 1, decimals: 3 })
const volts = (name: string) => ({ name, unit: 'V', perUnit: 1, decimals: 2 })
const style = (columns: FileStyle['columns'], rest: Partial<FileStyle> = {}): FileStyle => ({
  separator: ',',
  decimal: '.',
  preamble: [],
  unitsRow: false,
  time: undefined,
  columns,
  ...rest,
})

/** A time column, names in the header, before and after in the files' names. */
function plainExports(): RawExport[] {
  const plain = style([kv('secondary_kv'), volts('sync_v')], {
    time: { name: 'time_s', unit: 's', perS: 1, decimals: 6 },
  })
  return [
    { name: 'idle before.csv', bytes: captureText(simulateCapture(lean(four(11), 2)), plain) },
    { name: 'idle after.csv', bytes: captureText(simulateCapture(four(12)), plain) },
  ]
}

/** Semicolons, decimal commas, a German preamble with the interval, no time column, lettered channels, units in a row. */
function germanExports(): RawExport[] {
  const german = style([kv('Kanal A'), volts('Kanal B')], {
    separator: ';',
    decimal: ',',
    unitsRow: true,
    preamble: [
      'Aufzeichnung;Leerlauf',
      'Datum;04.03.2026',
      'Uhrzeit;09:12:00',
      'Abtastintervall;5 \u00b5s',
      '',
    ],
  })
  return [
    { name: 'Leerlauf vor.csv', bytes: captureText(simulateCapture(lean(four(21), 3)), german) },
    {
      name: 'Leerlauf nach.csv',
      bytes: captureText(simulateCapture(four(22)), {
        ...german,
        preamble: german.preamble.map((line) => line.replace('09:12', '11:40')),
      }),
    },
  ]
}

/** Four coils side by side, a cam signal, a speed; the interval in the preamble. */
function coilExports(): RawExport[] {
  const coils = (seed: number, faulty: boolean): Uint8Array => {
    const healthy = { ...plugTopCapture({ cylinders: 4, seed, durationS: 2.1, rpm: 780 }), recorder }
    const capture = simulateCapture(faulty ? lean(healthy, 4) : healthy)
    return table(capture, {
      head: ['Sample interval,5 us', 'Coil 1 (kV),Coil 2 (kV),Coil 3 (kV),Coil 4 (kV),Cam (V),RPM'],
      row: (i) => [
        ...capture.channels.map(({ data }) => data[i]!.toFixed(3)),
        camAt(capture, i).toFixed(1),
        String(776 + ((i >> 14) % 9)),
      ],
    })
  }
  return [
    { name: 'ralenti avant.csv', bytes: coils(31, true) },
    { name: 'ralenti apr\u00e8s.csv', bytes: coils(32, false) },
  ]
}

/** A cam sensor: high for a twelfth of the cycle around cylinder 1's ignition. */
function camAt({ truth, sampleS }: SimulatedCapture, row: number): number {
  const atS = row * sampleS
  const first = truth.events.filter((e) => e.cylinder === 1)
  return first.some((e) => atS > e.breakdownS - 0.004 && atS < e.breakdownS + 0.008) ? 5 : 0.1
}

function table(
  capture: SimulatedCapture,
  { head, row }: { head: readonly string[]; row: (i: number) => readonly string[] },
): Uint8Array {
  const lines = Array.from({ length: capture.rows }, (_, i) => row(i).join(','))
  return Buffer.from([...head, ...lines, ''].join('\n'))
}

/** A triggered recorder: tables one below the other, each with its title, the time starting anew. */
function segmentExports(): RawExport[] {
  const capture = (p: CaptureParameters): Uint8Array => {
    const made = simulateCapture(p)
    const rows = Math.round(0.17 * RATE)
    const parts = Array.from({ length: Math.floor(made.rows / rows) }, (_, s) => [
      `Segment ${s + 1}`,
      'Time (ms),CH1 (kV),CH2 (V)',
      ...Array.from({ length: rows }, (_, i) => {
        const at = s * rows + i
        return `${((i * 1000) / RATE).toFixed(3)},${made.channels[0]!.data[at]!.toFixed(3)},${made.channels[1]!.data[at]!.toFixed(2)}`
      }),
    ])
    return Buffer.from([...parts.flat(), ''].join('\n'))
  }
  return [
    { name: 'segments pre.csv', bytes: capture(lean(four(41, 3.2), 1)) },
    { name: 'segments post.csv', bytes: capture(four(42, 3.2)) },
  ]
}

/** Raw counts in hex, what one count is and the rate above them. */
function countExports(): RawExport[] {
  const capture = (p: CaptureParameters): Uint8Array => {
    const made = simulateCapture(p)
    const hex = (value: number, step: number) =>
      `0x${(2048 + Math.round(value / step)).toString(16).toUpperCase().padStart(4, '0')}`
    return table(made, {
      head: [
        'Sample rate,200 kS/s',
        'Channel 1 scale,0.01 kV/count,offset 2048',
        'Channel 2 scale,0.005 V/count,offset 2048',
        'CH1,CH2',
      ],
      row: (i) => [hex(made.channels[0]!.data[i]!, 0.01), hex(made.channels[1]!.data[i]!, 0.005)],
    })
  }
  return [
    { name: 'raw antes.csv', bytes: capture(lean(four(51), 3)) },
    { name: 'raw despues.csv', bytes: capture(four(52)) },
  ]
}

/** Every habit, by a name. */
export const EXPORTS = {
  plain: plainExports,
  german: germanExports,
  coils: coilExports,
  segments: segmentExports,
  counts: countExports,
} as const
