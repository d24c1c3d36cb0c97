import type { CylinderRecord, FigureRecord } from '../records/result.ts'
import { CONDITION_WORDS } from '../job/job-words.ts'
import { listWords } from '../texts/list-words.ts'
import { say, wordOf } from '../texts/say.ts'
import type { Texts } from '../texts/messages.ts'
import { ORDER } from '../verdicts/kinds/index.ts'
import { VERDICT_WORDS } from '../verdicts/verdict-words.ts'
import type { Scene, SceneCylinder } from './scenes.ts'

const ENGINE = { warm: 'chart.engine.warm', cold: 'chart.engine.cold' } as const
const STAGE = { before: 'chart.stage.before', after: 'chart.stage.after' } as const

/** Words several charts share. */
export const verdictWord = (texts: Texts, verdict: CylinderRecord['verdict']): string =>
  say(texts, VERDICT_WORDS[verdict])
export const cylinderNumber = (texts: Texts, cylinder: number): string =>
  say(texts, 'chart.number', { cylinder: String(cylinder) })
export const cylinderWord = (texts: Texts, cylinder: number): string =>
  say(texts, 'chart.cylinder', { cylinder: String(cylinder) })

/** "as found, idle, warm engine"; a repeat carries its number. */
export function settingWords(
  texts: Texts,
  scene: Omit<Scene, 'cylinders' | 'captures' | 'id'>,
  withStage = true,
): string {
  const condition = wordOf(texts, CONDITION_WORDS, scene.condition)
  const engine = say(texts, ENGINE[scene.engine])
  const stage = withStage ? [say(texts, STAGE[scene.stage])] : []
  const repeat = scene.turn > 1 ? [say(texts, 'chart.repeat', { turn: scene.turn })] : []
  return [...stage, condition, engine, ...repeat].join(', ')
}

/** "cylinder 5", "cylinders 2, 4 and 6". */
export const cylindersWords = (texts: Texts, cylinders: readonly number[]): string =>
  cylinders.length === 1
    ? say(texts, 'chart.cylinder-in', { cylinder: String(cylinders[0]) })
    : say(texts, 'chart.cylinders-in', { cylinders: listWords(texts, cylinders.map(String)) })

/** Beside a firing voltage that lies beyond the highest samples. */
export const EXTRAPOLATED = '\u00a0†'

export type PresentFigure = Extract<FigureRecord, { value: number }>

/** A figure of a record, or undefined where it is absent. Keys are those of result.json. */
export function figureOf(record: CylinderRecord | undefined, key: string): PresentFigure | undefined {
  const figure = record?.figures[key]
  return figure !== undefined && 'value' in figure ? figure : undefined
}

export const verdictOf = (c: SceneCylinder): CylinderRecord['verdict'] => c.record?.verdict ?? 'not judged'

/** What the verdicts say, for those who cannot see the words in the chart. */
export function verdictsWords(texts: Texts, scene: Scene): string {
  const odd = scene.cylinders.filter((c) => ORDER[verdictOf(c)] !== 'in order')
  if (odd.length === 0) return say(texts, 'chart.verdicts-level')
  const each = odd.map((c) =>
    say(texts, 'chart.verdicts-one', {
      who: cylindersWords(texts, [c.cylinder]),
      verdict: verdictWord(texts, verdictOf(c)),
    }),
  )
  return say(texts, 'chart.verdicts-odd', { verdicts: each.join(say(texts, 'chart.rise.join')) })
}

/** Whether the heights of some line are shares of the spark lines' own middle, without the pickup's ratio. */
export const areRelative = (cylinders: readonly SceneCylinder[]): boolean =>
  cylinders.some((c) => c.drawn?.relative)

/** First letter made a capital: sentences that begin with a listed thing. */
export const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
