import type { ComposedEngine } from './engines.ts'
import { allOf } from './engines.ts'
import { STEP_KV, TOP_STEPS, type Columns } from './wave.ts'

const list = (numbers: readonly number[]): string => `[${numbers.join(', ')}]`

/** The car in job.yaml, which is the same but for its engine. */
export function carYaml({
  cylinders,
  firingOrder,
  ignition,
  pairs,
  banks,
  fuel = 'E10',
}: ComposedEngine): string[] {
  const ofBanks = Object.entries(banks ?? {}).map(([bank, of]) => `${bank}: ${list(of)}`)
  return [
    'vehicle: { year: 2006, make: Invented, model: Model }',
    'engine:',
    `  cylinders: ${cylinders}`,
    `  firing_order: ${list(firingOrder)}`,
    `  ignition: ${ignition}`,
    `  fuel: ${fuel}`,
    ...(pairs ? [`  pairs: [${pairs.map(list).join(', ')}]`] : []),
    ...(banks ? [`  banks: { ${ofBanks.join(', ')} }`] : []),
  ]
}

/** Rate of every composed capture. */
export const SAMPLE_HZ = 100_000

/** The entry of a capture in job.yaml: one pickup that sees all with a sync, or one a cylinder. */
export function captureYaml(it: {
  file: string
  stage: string
  condition?: string
  engine: ComposedEngine
  taken: string
  warm: string
}): string {
  const limits = 'limits: [-30, 29.97]'
  const channels =
    it.engine.ignition === 'distributor'
      ? [
          `{ column: secondary_kv, carries: secondary, cylinders: all, unit: kV, ${limits} }`,
          '{ column: sync_v, carries: sync, cylinder: 1, unit: V }',
        ]
      : allOf(it.engine).map(
          (c) => `{ column: cyl${c}_kv, carries: secondary, cylinders: ${c}, unit: kV, ${limits} }`,
        )
  return [
    `  - file: ${it.file}`,
    `    stage: ${it.stage}`,
    `    condition: ${it.condition ?? 'idle'}`,
    `    engine: ${it.warm}`,
    `    taken: ${it.taken}`,
    `    time: { sample_rate_hz: ${SAMPLE_HZ} }`,
    '    channels:',
    ...channels.map((channel) => `      - ${channel}`),
  ].join('\n')
}

/** Text of each step of the recorder, made once: millions of figures are written. */
const STEP_TEXT = Array.from({ length: 2 * TOP_STEPS + 1 }, (_, i) =>
  Buffer.from(((i - TOP_STEPS) * STEP_KV).toFixed(2)),
)
const [COMMA, NEWLINE] = [0x2c, 0x0a]

/** A capture as text; figures have two decimals, as the recorder steps. */
export function captureCsv({ secondary, sync }: Columns): Uint8Array {
  const head = sync ? 'secondary_kv,sync_v' : secondary.map((_, i) => `cyl${i + 1}_kv`).join(',')
  const rows = secondary[0]!.length
  const bytes = Buffer.allocUnsafe(head.length + 1 + rows * (7 * secondary.length + 2))
  let at = bytes.write(`${head}\n`)
  for (let i = 0; i < rows; i++) {
    secondary.forEach((column, k) => {
      if (k > 0) bytes[at++] = COMMA
      const text = STEP_TEXT[Math.round(column[i]! / STEP_KV) + TOP_STEPS]!
      for (let j = 0; j < text.length; j++) bytes[at++] = text[j]!
    })
    if (sync) {
      bytes[at++] = COMMA
      bytes[at++] = sync[i] === 0 ? 0x30 : 0x35
    }
    bytes[at++] = NEWLINE
  }
  return bytes.subarray(0, at)
}
