import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../src/limits/limits.ts'
import type { EventFigures, MeasuredEvent } from '../../src/metrics/figures.ts'
import { markOwnSpeed } from '../../src/metrics/own-speed.ts'

/** Events of a four-cylinder engine turned at a speed known at every instant. */
function engine(rpm: (atS: number) => number, forS: number): (MeasuredEvent & { trueRpm: number })[] {
  const events: (MeasuredEvent & { trueRpm: number })[] = []
  let turned = 0
  for (let t = 0; t < forS; t += 1e-4) {
    turned += (rpm(t) / 30) * 1e-4
    if (turned < events.length) continue
    events.push({
      capture: 'a',
      stage: 'before',
      cylinder: [1, 3, 4, 2][events.length % 4]!,
      number: events.length + 1,
      kind: 'firing',
      breakdownS: t,
      figures: {} as EventFigures,
      class: 'level',
      flags: [],
      trueRpm: rpm(t),
    })
  }
  return events
}

function marked(rpm: (atS: number) => number, forS: number, condition = 'idle') {
  const events = engine(rpm, forS)
  return markOwnSpeed(events, { condition, engine: { strokes: 4 }, limits: loadLimits() }).map((e, i) => ({
    ...e,
    trueRpm: events[i]!.trueRpm,
  }))
}
const flags = (events: readonly MeasuredEvent[]) => new Set(events.flatMap((e) => e.flags))

describe('events of the condition stay whatever the swing', () => {
  test.each([0.3, 0.5, 1, 2, 4])('a sine of 300 rpm either way and %f s', (periodS) => {
    for (const phase of [0, 1.5, 3, 4.5]) {
      const events = marked((t) => 750 + 300 * Math.sin((2 * Math.PI * t) / periodS + phase), 3)
      expect(flags(events)).toEqual(new Set())
    }
  })
  test('surges from a low idle that come back every second', () => {
    const events = marked((t) => 620 + 500 * Math.exp(-(((t % 1) - 0.5) ** 2) / 0.01), 6)
    expect(flags(events)).toEqual(new Set())
  })
  test('a snap of the throttle', () => {
    expect(flags(marked((t) => (t < 1 ? 800 : 800 + 2000 * (t - 1)), 2.5, 'snap'))).toEqual(new Set())
  })
})

describe('what is not of the condition is left out', () => {
  const started = (t: number) =>
    t < 1.2
      ? 190 + 40 * Math.sin(20 * t)
      : Math.min(190 + 5000 * (t - 1.2), 880 + 450 * Math.exp((1.2 - t) / 0.4))
  test('cranking and run-up, until the idle has settled', () => {
    const events = marked(started, 6)
    expect(flags(events)).toEqual(new Set(['starting']))
    for (const e of events) {
      if (e.trueRpm < 700 || e.trueRpm > 1100) expect(e.flags).toContain('starting')
      if (e.breakdownS > 4) expect(e.flags).toEqual([])
    }
  })
  test('a stall and a restart in the middle', () => {
    const events = marked((t) => (t < 2 ? 820 : t < 2.3 ? 820 - 2300 * (t - 2) : started(t - 2.3)), 8)
    const apart = events.filter((e) => e.flags.includes('starting'))
    expect(apart.some((e) => e.breakdownS > 2.3)).toBe(true)
    for (const e of events) if (e.breakdownS < 1.8 || e.breakdownS > 6) expect(e.flags).toEqual([])
    for (const e of events) if (e.trueRpm < 600) expect(e.flags).toEqual(['starting'])
  })
  test('a blip of the throttle, on a hunting idle too', () => {
    for (const swing of [5, 120]) {
      const blip = (t: number) =>
        Math.min(Math.max(0, t - 2) * 8000, 1900 * Math.exp(-Math.max(0, t - 2.3) / 0.25))
      const events = marked((t) => 800 + swing * Math.sin(5 * t) + blip(t), 5)
      expect(flags(events)).toEqual(new Set(['off_speed']))
      for (const e of events) if (e.trueRpm > 1600) expect(e.flags).toEqual(['off_speed'])
      for (const e of events) if (e.breakdownS < 1.8 || e.breakdownS > 4) expect(e.flags).toEqual([])
    }
  })
  test('the run-up to 2500 rpm', () => {
    const events = marked((t) => Math.min(2500, 800 + 2000 * Math.max(0, t - 0.5)), 4, '2500 rpm')
    for (const e of events)
      expect(e.flags).toEqual(e.trueRpm < 2000 ? ['off_speed'] : e.trueRpm > 2400 ? [] : e.flags)
  })
})
