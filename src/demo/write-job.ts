import { stringify } from 'yaml'
import { simulateCapture } from '../model/simulate-capture.ts'
import { simulateSpeedTrace, type SpeedTraceParameters } from '../model/speed-trace.ts'
import { captureText, packed } from './capture-file.ts'
import type { DemoJob, LogLine } from './demo-job.ts'

/** Columns of test-log.csv, in the order of the contract. */
const LOG_COLUMNS = [
  'at',
  'step',
  'place',
  'stage',
  'condition',
  'reading',
  'value',
  'unit',
  'expected_low',
  'expected_high',
  'trace',
  'from_s',
  'to_s',
  'outcome',
  'note',
] as const satisfies readonly (keyof LogLine)[]

const COMMENT = [
  '# A demo job. Shop, people, vehicle and readings are invented; the captures come from the physical model in src/model.',
  '# Made by `npm run demo:make`: change src/demo, not this file.',
].join('\n')

const cell = (value: string | number | undefined): string => {
  const text = value === undefined ? '' : String(value)
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

const logText = (log: readonly LogLine[]): string =>
  [
    LOG_COLUMNS.join(','),
    ...log.map((line) => LOG_COLUMNS.map((column) => cell(line[column])).join(',')),
  ].join('\n') + '\n'

function traceText(parameters: SpeedTraceParameters): string {
  const { rpm, sampleS } = simulateSpeedTrace(parameters)
  return (
    ['time_s,rpm', ...Array.from(rpm, (v, i) => `${(i * sampleS).toFixed(2)},${v.toFixed(0)}`)].join('\n') +
    '\n'
  )
}

/** Every file of a demo job: path inside inputs/ -> bytes. */
export function jobFiles(demo: DemoJob): Map<string, Uint8Array> {
  const utf8 = new TextEncoder()
  const files = new Map<string, Uint8Array>()
  files.set(`${demo.folder}/job.yaml`, utf8.encode(`${COMMENT}\n${stringify(demo.job, { lineWidth: 0 })}`))
  files.set(`${demo.folder}/test-log.csv`, utf8.encode(logText(demo.log)))
  for (const [file, { parameters, style }] of demo.captures) {
    files.set(`${demo.folder}/${file}`, packed(captureText(simulateCapture(parameters), style)))
  }
  for (const [file, parameters] of demo.traces)
    files.set(`${demo.folder}/${file}`, utf8.encode(traceText(parameters)))
  return files
}
