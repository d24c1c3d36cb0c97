import { stringify } from 'yaml'
import { simulateCapture } from '../model/simulate-capture.ts'
import { simulateSpeedTrace, type SpeedTraceParameters } from '../model/speed-trace.ts'
import { captureText, packed } from './capture-file.ts'
import { logText } from '../job/edit-log.ts'
import type { DemoJob } from './demo-job.ts'

const COMMENT = [
  '# A demo job. Shop, people, vehicle and readings are invented; the captures come from the physical model in src/model.',
  '# Made by `npm run demo:make`: change src/demo, not this file.',
].join('\n')

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
  files.set(
    `${demo.folder}/job.yaml`,
    utf8.encode(`${COMMENT}\n${stringify(demo.job, { lineWidth: 0, aliasDuplicateObjects: false })}`),
  )
  files.set(`${demo.folder}/test-log.csv`, utf8.encode(logText(demo.log)))
  for (const [file, { parameters, style }] of demo.captures) {
    files.set(`${demo.folder}/${file}`, packed(captureText(simulateCapture(parameters), style)))
  }
  for (const [file, parameters] of demo.traces)
    files.set(`${demo.folder}/${file}`, utf8.encode(traceText(parameters)))
  return files
}
