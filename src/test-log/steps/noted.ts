import type { StepKind } from '../step-kind.ts'
import { recorded } from '../test-group.ts'

/** Notes and photos: shown as they are, and not read into anything. */
export const note: StepKind = {
  title: 'report.step.note',
  needs: {},
  evidence: [],
  cautions: [],
  read: recorded,
}

export const photo: StepKind = { ...note, title: 'report.step.photo' }
