import { sentence } from '../../texts/messages.ts'
import { REPAIR_WORDS, VERDICT_WORDS } from '../../verdicts/verdict-words.ts'
import type { Says } from '../../test-log/findings.ts'
import type { Texts } from '../../texts/messages.ts'
import type { EarlierResult, Result } from '../result.ts'
import { statement } from './statement.ts'

/** A report that stands and is to be replaced: its result, and the SHA-256 of its result.json. */
export interface Standing {
  result: EarlierResult
  sha256: string
  /** The reissue is signed and what it replaces does not bear the same key's signature. */
  notSigned?: boolean
}

/**
 * The result as a reissue: with its revision number, the one it replaces, and what changed between the two.
 * A report made for the first time carries no revision and counts as revision 1.
 *
 * @source ISO/IEC 17025:2017, 7.8.8: a changed report says what changed and points to the one it replaces
 */
export function revised(texts: Texts, result: Result, standing: Standing): Result {
  const replaced = standing.result.revision?.number ?? 1
  const changes = changesBetween(standing.result, result)
  const said = [
    ...(changes.length > 0 ? changes : [sentence('revision.nothing')]),
    ...(standing.notSigned ? [sentence('revision.not-signed')] : []),
  ]
  return {
    ...result,
    revision: {
      number: replaced + 1,
      replaces: { number: replaced, result_sha256: standing.sha256 },
      changes: said.map((says) => statement(texts, says)),
    },
  }
}

/** What changed, causes first: files and program, then what follows from them. */
function changesBetween(before: EarlierResult, after: Result): Says[] {
  return [...inputChanges(before, after), ...settingChanges(before, after), ...verdictChanges(before, after)]
}

function inputChanges(before: EarlierResult, after: Result): Says[] {
  const digests = (result: EarlierResult) =>
    new Map([...result.inputs, ...(result.handed_in ?? [])].map(({ file, sha256 }) => [file, sha256]))
  const [old, now] = [digests(before), digests(after)]
  return [...new Set([...old.keys(), ...now.keys()])].sort().flatMap((file): Says[] => {
    const key = !old.has(file)
      ? 'revision.input-added'
      : !now.has(file)
        ? 'revision.input-removed'
        : old.get(file) !== now.get(file)
          ? 'revision.input-changed'
          : undefined
    return key ? [sentence(key, { file })] : []
  })
}

function settingChanges(before: EarlierResult, after: Result): Says[] {
  const program =
    before.program.version === after.program.version
      ? []
      : [sentence('revision.program', { before: before.program.version, after: after.program.version })]
  const limits = after.limits.flatMap((limit): Says[] => {
    const old = before.limits.find(({ key }) => key === limit.key)
    return old && old.value !== limit.value
      ? [
          sentence('revision.limit', {
            meaning: limit.meaning,
            before: String(old.value),
            after: String(limit.value),
          }),
        ]
      : []
  })
  const language =
    before.language === after.language
      ? []
      : [sentence('revision.language', { before: before.language, after: after.language })]
  return [...program, ...limits, ...ownTexts(before, after), ...language]
}

/** Sentences of the shop's own that are new, changed or gone, by their keys. */
function ownTexts(before: EarlierResult, after: Result): Says[] {
  const [old, now] = [before, after].map((r) => new Map((r.own_texts ?? []).map((o) => [o.key, o.sentence])))
  const keys = [...new Set([...old!.keys(), ...now!.keys()])].filter((key) => old!.get(key) !== now!.get(key))
  return keys.length === 0 ? [] : [sentence('revision.own-texts', { keys: keys.sort().join(', ') })]
}

function verdictChanges(before: EarlierResult, after: Result): Says[] {
  const cylinders = after.cylinders.flatMap((now): Says[] => {
    const old = before.cylinders.find((c) => c.capture === now.capture && c.cylinder === now.cylinder)
    return old && old.verdict !== now.verdict
      ? [
          sentence('revision.verdict', {
            mark: now.mark,
            before: sentence(VERDICT_WORDS[old.verdict]),
            after: sentence(VERDICT_WORDS[now.verdict]),
          }),
        ]
      : []
  })
  const repair =
    before.repair.verdict === after.repair.verdict
      ? []
      : [
          sentence('revision.repair', {
            before: sentence(REPAIR_WORDS[before.repair.verdict]),
            after: sentence(REPAIR_WORDS[after.repair.verdict]),
          }),
        ]
  const [were, are] = [before, after].map(({ review }) => review?.filter(({ agrees }) => !agrees).length ?? 0)
  const review = were === are ? [] : [sentence('revision.review', { before: were!, after: are! })]
  return [...cylinders, ...repair, ...review]
}
