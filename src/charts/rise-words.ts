import type { Texts } from '../texts/messages.ts'
import { listWords } from '../texts/list-words.ts'
import { say } from '../texts/say.ts'
import { verdictOf as verdictTraits } from '../verdicts/kinds/index.ts'
import type { Scene, SceneCylinder } from './scenes.ts'
import { cylindersWords, figureOf, sentence, verdictOf, type PresentFigure } from './words.ts'

const ONE = { up: 'chart.rise.one.up', down: 'chart.rise.one.down' } as const
const MANY = { up: 'chart.rise.many.up', down: 'chart.rise.many.down' } as const

interface Risen {
  cylinder: number
  figure: PresentFigure
}

/** "cylinder 5 rises by 1.4 kV", "cylinders 1, 3 and 5 fall by 0.9 kV to 1.2 kV". */
function groupWords(group: readonly Risen[], way: 'up' | 'down', texts: Texts): string[] {
  if (group.length === 0) return []
  const sizes = group.map((r) => Math.abs(r.figure.value))
  const { unit } = group[0]!.figure
  const quantity = (value: number) => ({ value, low: value, high: value, unit }) as never
  const who = cylindersWords(
    texts,
    group.map((r) => r.cylinder),
  )
  return [
    group.length === 1
      ? say(texts, ONE[way], { who, by: quantity(sizes[0]!) })
      : say(texts, MANY[way], { who, low: quantity(Math.min(...sizes)), high: quantity(Math.max(...sizes)) }),
  ]
}

/** The one sentence that says what a reader sees: who rises or falls by how much, and how far the others keep level. */
export function riseWords(scene: Scene, key: 'late_rise_kv' | 'late_rise_pct', texts: Texts): string {
  const isShaped = (c: SceneCylinder) => verdictTraits(verdictOf(c)).shaped
  const risen = (cylinders: readonly SceneCylinder[]): Risen[] =>
    cylinders.flatMap((c) => {
      const figure = figureOf(c.record, key)
      return figure ? [{ cylinder: c.cylinder, figure }] : []
    })
  const shaped = risen(scene.cylinders.filter(isShaped))
  const rest = risen(scene.cylinders.filter((c) => !isShaped(c)))
  const missing = scene.cylinders.filter((c) => !figureOf(c.record, key)).map((c) => c.cylinder)
  const groups = [
    ...groupWords(
      shaped.filter((r) => r.figure.value >= 0),
      'up',
      texts,
    ),
    ...groupWords(
      shaped.filter((r) => r.figure.value < 0),
      'down',
      texts,
    ),
  ]
  const most = Math.max(0, ...rest.map((r) => Math.abs(r.figure.value)))
  const unit = rest[0]?.figure.unit ?? ''
  const within =
    rest.length === 0
      ? []
      : [
          say(texts, groups.length > 0 ? 'chart.rise.others' : 'chart.rise.all', {
            within: { value: most, low: most, high: most, unit } as never,
          }),
        ]
  const absent =
    missing.length === 0 ? [] : [say(texts, 'chart.rise.absent', { who: cylindersWords(texts, missing) })]
  const said = [...(groups.length > 0 ? [listWords(texts, groups)] : []), ...within, ...absent]
  return sentence(said.join(say(texts, 'chart.rise.join'))) + '.'
}
