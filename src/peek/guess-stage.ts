import type { Stage } from '../job/schema.ts'
import { sentence } from '../texts/messages.ts'
import type { Guess } from './drafted.ts'

/** What technicians write into a name for before and after a repair, in the languages of the reports. */
const BEFORE = /(?:^|[^\p{L}])(?:before|pre|vor(?:her)?|avant|antes|prima|bad|faulty|alt)(?=[^\p{L}]|$)/iu
const AFTER =
  /(?:^|[^\p{L}])(?:after|post|nach(?:her)?|apr[e\u00e8]s|despu[e\u00e9]s|dopo|fixed|repaired|neu)(?=[^\p{L}]|$)/iu

/** The stage a file's name says; undefined where it says none, or both. */
export function stageNamed(file: string): Stage | undefined {
  const name = file.normalize().replace(/^.*\//, '')
  const [before, after] = [BEFORE.test(name), AFTER.test(name)]
  return before === after ? undefined : before ? 'before' : 'after'
}

/**
 * The stage of a capture, and whether it is sure: by its name; by a repair in the log that it came after; before, where
 * no capture is named as taken after and nothing was repaired yet.
 *
 * @param repairedAt     of a repair in the log, ISO; undefined where there is none
 * @param looksRepaired  captures that look so, each with the one it is held against: told, and not taken for it
 */
export function stageOf(
  { file, taken }: { file: string; taken: string },
  {
    repairedAt,
    looksRepaired,
  }: { repairedAt?: string | undefined; looksRepaired?: ReadonlyMap<string, string> | undefined } = {},
): Guess<Stage> {
  const named = stageNamed(file)
  if (named !== undefined) return { value: named, why: sentence('new.why.stage-name') }
  const later = repairedAt !== undefined && Date.parse(taken) > Date.parse(repairedAt)
  const looks = looksRepaired?.get(file)
  return later
    ? { value: 'after', why: sentence('new.why.stage-repair') }
    : {
        value: 'before',
        why:
          looks === undefined
            ? sentence('new.why.stage-first')
            : sentence('new.why.stage-looks', { other: looks.replace(/^.*\//, '') }),
      }
}

/** Captures further apart than this are not of one look at the engine, ms: a repair may lie between. */
const APART_MS = 20 * 60_000

/**
 * Files whose stage ought to be asked: unnamed ones that come well after the first capture, or after a named one
 * of the other stage.
 */
export function stagesToAsk(
  files: readonly { file: string; taken: string }[],
  looksRepaired: ReadonlyMap<string, string> = new Map(),
): string[] {
  const first = Math.min(...files.map(({ taken }) => Date.parse(taken)))
  return files
    .filter(
      ({ file, taken }) =>
        stageNamed(file) === undefined && (looksRepaired.has(file) || Date.parse(taken) - first > APART_MS),
    )
    .map(({ file }) => file)
}
