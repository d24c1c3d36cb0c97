import { problem, type Problem } from '../../problems/problem.ts'
import { compareMoments } from '../iso-time.ts'
import type { RecordingPart } from '../parts.ts'
import type { YamlFile } from '../yaml-document.ts'
import type { Check } from './check.ts'

/** Captures of stage `after` come after those of stage `before`: taken for each other they turn the repair check round. */
export const stages: Check = function* ({ recordings }, yaml) {
  const ofStage = (stage: 'before' | 'after') =>
    recordings.filter((r) => r.kind === 'captures' && r.stage === stage && r.taken !== undefined)
  const [before, after] = [ofStage('before'), ofStage('after')]
  for (const late of after) {
    const later = before.filter((early) => (compareMoments(early.taken!, late.taken!) ?? -1) > 0)
    if (later.length === 0) continue
    const swapped =
      later.length === before.length &&
      after.every((a) => before.every((b) => (compareMoments(b.taken!, a.taken!) ?? -1) > 0))
    yield outOfOrder(yaml, late, {
      other: 'phrase.before-capture',
      when: later[0]!.taken!,
      severity: swapped ? 'refuse' : 'warn',
    })
  }
}

/** Warns where a capture's stage does not go with the repairs of the log. */
export function stagesAgainstRepairs(
  recordings: readonly RecordingPart[],
  repairs: readonly string[],
  yaml: YamlFile,
): Problem[] {
  if (repairs.length === 0) return []
  const wrong = (taken: string, stage: 'before' | 'after') =>
    repairs.every((at) => {
      const order = compareMoments(taken, at)
      return order !== undefined && (stage === 'before' ? order > 0 : order < 0)
    })
  return recordings
    .filter(
      (r) =>
        r.kind === 'captures' && r.stage !== undefined && r.taken !== undefined && wrong(r.taken, r.stage),
    )
    .map((r) =>
      outOfOrder(yaml, r, {
        other: 'phrase.repair-row',
        when: r.stage === 'before' ? repairs.at(-1)! : repairs[0]!,
        severity: 'warn',
      }),
    )
}

function outOfOrder(
  yaml: YamlFile,
  recording: RecordingPart,
  than: { other: string; when: string; severity: 'refuse' | 'warn' },
): Problem {
  const { other, when, severity } = than
  return problem(
    'stage-order',
    { ...yaml.valuePlace([...recording.path, 'stage']), severity },
    { stage: recording.stage!, taken: recording.taken!, other, when },
  )
}
