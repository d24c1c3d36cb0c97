import type { Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { problemSentence } from '../texts/say-problem.ts'

/** A problem as `--json` gives it: code, place and arguments for programs, the sentence for people; absent places are null. */
export const problemForMachines = (texts: Texts, p: Problem): Record<string, unknown> => ({
  code: p.code,
  severity: p.severity,
  file: p.file,
  line: p.line ?? null,
  column: p.column ?? null,
  args: p.args,
  sentence: problemSentence(texts, p),
})
