import type { Capture, Channel } from '../../src/capture/capture.ts'
import { makeRandom } from '../../src/maths/random.ts'

/** What a poorer recorder does to a secondary channel. Levels in kV. */
export interface Damage {
  /** Keeps one sample of so many, beginning with `phase`. */
  every?: number
  phase?: number
  noiseKv?: number
  stepKv?: number
  humKv?: number
  humHz?: number
  driftKvPerS?: number
  limitKv?: number
  upsideDown?: boolean
}

/** The same capture as a poorer recorder would have stored it; sync channels are thinned only. The input stays as it is. */
export function degrade(capture: Capture, damage: Damage, seed = 1): Capture {
  const { every = 1, phase = 0 } = damage
  const random = makeRandom(seed)
  const channels = capture.channels.map((channel): Channel => {
    const kept = new Float32Array(Math.floor((channel.data.length - phase) / every))
    for (let i = 0; i < kept.length; i++) kept[i] = channel.data[i * every + phase]!
    if (channel.unit !== 'kV') return { ...channel, data: kept }
    const data = kept.map((kv, i) =>
      worsened(kv, { damage, tS: (i * every + phase) * capture.sampleS, gauss: random.gaussian }),
    )
    const { limitKv } = damage
    const limits = limitKv === undefined ? channel.limits : ([-limitKv, limitKv] as const)
    return { ...channel, data, quantum: damage.stepKv ?? channel.quantum, limits }
  })
  return {
    ...capture,
    channels,
    rows: channels[0]!.data.length,
    sampleS: capture.sampleS * every,
    startS: capture.startS + phase * capture.sampleS,
  }
}

function worsened(
  kv: number,
  { damage, tS, gauss }: { damage: Damage; tS: number; gauss: () => number },
): number {
  const { noiseKv = 0, stepKv = 0, humKv = 0, humHz = 50, driftKvPerS = 0, limitKv, upsideDown } = damage
  let v =
    kv + humKv * Math.sin(2 * Math.PI * humHz * tS) + driftKvPerS * tS + (noiseKv > 0 ? noiseKv * gauss() : 0)
  if (limitKv !== undefined) v = Math.min(Math.max(v, -limitKv), limitKv)
  if (stepKv > 0) v = Math.round(v / stepKv) * stepKv
  return upsideDown ? -v : v
}

/** Rows `from` to `to` (s on the capture's clock) alone. */
export function cut(capture: Capture, fromS: number, toS: number): Capture {
  const from = Math.round((fromS - capture.startS) / capture.sampleS)
  const to = Math.round((toS - capture.startS) / capture.sampleS)
  const channels = capture.channels.map((c) => ({ ...c, data: c.data.slice(from, to) }))
  return {
    ...capture,
    channels,
    rows: channels[0]!.data.length,
    startS: capture.startS + from * capture.sampleS,
  }
}

/** The capture with its sync channel's samples changed by `edit`, which gets a copy. */
export function withSync(capture: Capture, edit: (data: Float32Array) => Float32Array | void): Capture {
  const channels = capture.channels.map((c) => {
    if (c.entry.carries !== 'sync') return c
    const data = c.data.slice()
    return { ...c, data: edit(data) ?? data }
  })
  return { ...capture, channels }
}
