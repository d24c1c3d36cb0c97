import { expect, test } from 'vitest'
import { loadLimits, loadSources } from '../../../src/limits/limits.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { GATES } from '../../../src/verdicts/gates/index.ts'

/** Remarks made where events are found (ignition/remarks.ts, assign-channel.ts) that forbid a verdict. */
const FROM_IGNITION = [
  'no-events-channel',
  'polarity-unsure',
  'polarity-contradicted',
  'clipped-line',
  'wasted-unclear',
  'no-lines',
]
/** Gates that never forbid a verdict on mixture or circuit, only kV, or nothing. */
const ONLY_SHOWN = [
  'cold-engine',
  'not-at-idle',
  'ratio-unknown',
  'burn-short',
  'whole-coil',
  'frames',
  'events-left-out',
  'clock-jumps',
  'recording-only',
  'level-drift',
  'class-with-speed',
  'rise-with-speed',
]

test.each(GATES.map((g) => [g.id, g] as const))(
  '%s names limits and sources that exist, and has its texts',
  (_, gate) => {
    for (const key of gate.limits) expect(loadLimits()[key], key).toBeDefined()
    for (const key of gate.sources) expect(loadSources()[key], key).toBeDefined()
    for (const language of LANGUAGES) expect(loadTexts(language).templates[`remark.${gate.id}`]).toBeDefined()
  },
)

test('every reason for a verdict withheld has its words, and no other', () => {
  const reasons = [...GATES.map((g) => g.id).filter((id) => !ONLY_SHOWN.includes(id)), ...FROM_IGNITION]
  for (const language of LANGUAGES) {
    const known = Object.keys(loadTexts(language).templates).filter(
      (k) => k.startsWith('gate.') && k !== 'gate.unknown-speed',
    )
    expect(known.toSorted()).toEqual(reasons.map((id) => `gate.${id}`).toSorted())
  }
})
