import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { isJudged, ORDER, verdictOf as verdictTraits } from '../verdicts/kinds/index.ts'
import type { ChartPlan } from './chart-plan.ts'
import { oddCylinders } from './engine-top.ts'
import { riseLimit } from './late-rise.ts'
import { lineRuns } from './line-path.ts'
import type { Scene, SceneCylinder, ScenePair } from './scenes.ts'
import { ACCENT, INK, QUIET, SMALL_PT, STRONG, TEXT_PT, WASH } from './theme.ts'
import { liteSpec, only } from './vega-lite.ts'
import { cylindersWords, figureOf, verdictOf } from './words.ts'
import { wrapText } from './wrap-text.ts'

const PANEL_HEIGHT_PT = 122
const GAP_PT = 14
const LINE_PT = 10
/** What the voltage's numbers and title take at the left. */
const AXIS_PT = 34
/** Shares of the burn that are drawn, %: before lies the firing line, after it the hook of the spark's end and the coil's ringing. */
const [FROM, TO] = [5, 93] as const
/** How far a point left out may lie from the line drawn, pt. */
const TOLERANCE_PT = 0.25
/** Where an arrow points: the two ends of the line, as the verdict reads them. */
const AT = { start: 10, end: 88 } as const

/** Cylinders to point out: those not in order as found; none where all are, for then no other is left. */
function oddOnes(result: Result, scene: Scene): number[] {
  const odd = oddCylinders(result)
  const here = scene.cylinders.map((c) => c.cylinder).filter((c) => odd.includes(c))
  return here.length < scene.cylinders.length ? here : []
}

const HEADS = { before: 'chart.customer.before', after: 'chart.customer.after' } as const
const ALTS = { before: 'chart.customer.alt-before', after: 'chart.customer.alt-after' } as const

/** What the shape means in plain words, where the cylinders pointed out, or all, share one verdict; else nothing. */
function meaning(scene: Scene, odd: readonly number[], texts: Texts): string {
  const speaking = scene.cylinders.filter((c) => odd.length === 0 || odd.includes(c.cylinder))
  const verdicts = [...new Set(speaking.map(verdictOf))]
  const sure = verdicts.filter((v) => ORDER[v] !== 'unsure' && isJudged(v))
  if (verdicts.length === 1) return say(texts, verdictTraits(verdicts[0]!).means)
  if (sure.length === 0 || sure.some((v) => ORDER[v] !== 'in order'))
    return say(texts, 'chart.customer.means.several')
  // A line at the limit was judged, and does not stay level.
  const near = speaking.filter((c) => isJudged(verdictOf(c)) && ORDER[verdictOf(c)] === 'unsure')
  if (near.length === 0) return say(texts, 'chart.customer.means.level-where-judged')
  const who = cylindersWords(
    texts,
    near.map((c) => c.cylinder),
  )
  return say(texts, 'chart.customer.means.level-but', { who })
}

/** The level that counts as 100 %, kV: the middle of each line itself; where resistance lifts the whole line, that of the lines in order beside it. */
function middleOf(c: SceneCylinder, scene: Scene): number | undefined {
  const level = scene.cylinders
    .filter((each) => verdictOf(each) === 'level')
    .flatMap((each) => each.drawn?.marks.find(({ share }) => share === 50)?.kv ?? [])
    .toSorted((one, other) => one - other)
  const own = c.drawn?.marks.find(({ share }) => share === 50)?.kv
  const lifted = verdictTraits(verdictOf(c)).points?.at === 'start'
  return lifted && level.length > 0 ? level[level.length >> 1] : own
}

interface Point {
  x: number
  y: number
}

/** A spark line over the share of its burn, %, its middle 100 %; empty where nothing burned. */
function burnOf(c: SceneCylinder, scene: Scene): Point[] {
  const end = c.drawn?.marks.find(({ share }) => share === 90)?.ms
  const middle = middleOf(c, scene)
  if (!c.drawn || end === undefined || middle === undefined || !(middle > 0) || isWithoutSpark(c)) return []
  const { x, y } = c.drawn.median
  return x.flatMap((ms, i) => {
    const at = (ms / end) * 90
    return at < FROM || at > TO ? [] : [{ x: round(at), y: round((y[i]! / middle) * 100) }]
  })
}

const round = (value: number): number => Math.round(value * 10) / 10
const isWithoutSpark = (c: SceneCylinder): boolean => verdictTraits(verdictOf(c)).points?.at === 'no line'

/** The cylinders that were the measure of those shown, where off a warm idle the fellows decided: the level ones. */
function measureOf(scene: Scene, shown: readonly SceneCylinder[]): readonly SceneCylinder[] {
  const byFellows = (c: SceneCylinder) =>
    c.record?.basis === 'fellows' && verdictTraits(verdictOf(c)).points?.at === 'end'
  return shown.some(byFellows) ? scene.cylinders.filter((c) => verdictOf(c) === 'level') : []
}

/** How far a line that is in order ends above its middle, %: that of the cylinders that were the measure. */
function bendOf(measure: readonly SceneCylinder[]): number {
  const rises = measure
    .flatMap((c) => figureOf(c.record, 'late_rise_pct')?.value ?? [])
    .toSorted((one, other) => one - other)
  return rises.length > 0 ? rises[rises.length >> 1]! : 0
}

/** One half of the picture: what it says, the lines it shows, and what its arrow points at. */
interface Half {
  head: readonly string[]
  means: readonly string[]
  lines: readonly (readonly Point[])[]
  /** Lines of the cylinders that were the measure; none where the limits of an idle were. */
  fellows: readonly (readonly Point[])[]
  bend: number
  pointed: SceneCylinder | undefined
  burn: readonly Point[]
}

function halfOf(
  scene: Scene,
  odd: readonly number[],
  how: { both: boolean; widthPt: number; texts: Texts },
): Half {
  const { both, widthPt, texts } = how
  const shown = scene.cylinders.filter((c) => odd.length === 0 || odd.includes(c.cylinder))
  const lines = shown.map((c) => ({ c, points: burnOf(c, scene) }))
  const off = ({ points }: (typeof lines)[number]) => Math.max(0, ...points.map(({ y }) => Math.abs(y - 100)))
  const measure = measureOf(scene, shown)
  const worst = lines.toSorted((one, other) => rank(one.c) - rank(other.c) || off(other) - off(one))[0]
  const when = both ? say(texts, HEADS[scene.stage]) : say(texts, 'chart.customer.recorded')
  const who = odd.length > 0 ? cylindersWords(texts, odd) : say(texts, 'chart.customer.all')
  return {
    head: wrapText(say(texts, 'chart.customer.who', { when, who }), widthPt, {
      sizePt: TEXT_PT,
      face: 'strong',
    }),
    means: wrapText(meaning(scene, odd, texts), widthPt, { sizePt: TEXT_PT }),
    lines: lines.map(({ points }) => points).filter((points) => points.length > 0),
    fellows: measure
      .filter((c) => !shown.includes(c))
      .map((c) => burnOf(c, scene))
      .filter((points) => points.length > 0),
    bend: bendOf(measure),
    pointed: worst?.c,
    burn: worst?.points ?? [],
  }
}

const RANKS = { 'out of order': 0, unsure: 1, 'in order': 2, 'not known': 3 } as const
const rank = (c: SceneCylinder): number => RANKS[ORDER[verdictOf(c)]]

/** Where an arrow begins and ends, and its words. */
interface Pointer {
  from: Point
  to: Point
  words: string
}

/** From the free side of the line to where it shows what the words say. */
function pointerOf({ pointed, burn }: Half, axis: { low: number; high: number }, texts: Texts): Pointer[] {
  const points = pointed && verdictTraits(verdictOf(pointed)).points
  if (!points || points.at === 'no line' || burn.length === 0) return []
  const x = AT[points.at]
  const to = burn.reduce((best, point) => (Math.abs(point.x - x) < Math.abs(best.x - x) ? point : best))
  const below = to.y < 100 - STAYS
  const above = to.y > 100 + STAYS
  const from = {
    x: points.at === 'start' ? 48 : above || below ? 46 : 62,
    y: below
      ? (axis.low + to.y) / 2
      : above
        ? Math.min(axis.high - 6, (to.y + axis.high) / 2)
        : axis.high - 14,
  }
  return [
    {
      from,
      to: {
        x: to.x + (points.at === 'start' ? 3 : above || below ? -3 : 0),
        y: to.y + (above || below ? 0 : 4),
      },
      words: say(texts, points.words),
    },
  ]
}

/** A line this near to its middle has both sides free, %. */
const STAYS = 12

/** The points of a line that suffice to draw it. */
const drawnPoints = (points: readonly Point[], y: { low: number; high: number }, widthPt: number): Point[] =>
  lineRuns(
    { x: points.map((point) => point.x), y: points.map((point) => point.y) },
    { x: { ...SHARES, ...NO_TICKS }, y: { ...y, ...NO_TICKS }, widthPt, heightPt: PANEL_HEIGHT_PT },
    TOLERANCE_PT,
  )
    .flat()
    .map((point) => ({ x: round(point.x), y: round(point.y) }))

const SHARES = { low: 0, high: 100 }
const NO_TICKS = { ticks: [], decimals: 0 }

/** Rows of one half, one kind a layer; `panel` parts the facets. */
function rowsOf(
  half: Half,
  panel: number,
  how: { axis: { low: number; high: number }; limit: number; texts: Texts; size: { widthPt: number } },
): object[] {
  const { axis, limit, texts, size } = how
  const band = [FROM, 50, TO].map((x) => {
    const bent = 100 + half.bend * Math.max(0, (x - 50) / 40)
    return { x, low: round(bent - limit), high: round(bent + limit) }
  })
  const pointers = pointerOf(half, axis, texts)
  const pt = { x: size.widthPt / 100, y: PANEL_HEIGHT_PT / (axis.high - axis.low) }
  const named = say(texts, half.fellows.length > 0 ? 'chart.customer.band-fellows' : 'chart.customer.band')
  const falls = half.burn.some(({ x, y }) => x > 50 && y < 100 - STAYS)
  return [
    ...band.map((row) => ({ kind: 'band', ...row })),
    ...(['low', 'high'] as const).flatMap((edge) =>
      band.map((row) => ({ kind: 'edge', edge, x: row.x, y: row[edge] })),
    ),
    ...half.fellows.flatMap((points, line) =>
      drawnPoints(points, axis, size.widthPt).map((point) => ({ kind: 'fellow', line, ...point })),
    ),
    ...half.lines.flatMap((points, line) =>
      drawnPoints(points, axis, size.widthPt).map((point) => ({ kind: 'line', line, ...point })),
    ),
    ...pointers.map(({ from, to }) => ({ kind: 'arrow', ...from, x2: to.x, y2: to.y })),
    ...pointers.map(({ from, to }) => ({
      kind: 'head',
      ...to,
      turn: round((Math.atan2((to.x - from.x) * pt.x, (to.y - from.y) * pt.y) * 180) / Math.PI),
    })),
    ...pointers.map(({ from, to, words }) => ({
      kind: 'words',
      x: from.x,
      y: from.y,
      words,
      align: to.x > from.x ? 'right' : 'left',
      weight: STRONG,
    })),
    ...(half.lines.length === 0
      ? [
          {
            kind: 'words',
            x: 50,
            y: 100,
            words: say(texts, 'chart.customer.no-spark'),
            align: 'center',
            weight: STRONG,
          },
        ]
      : []),
    falls
      ? { kind: 'named', x: TO - 2, y: band[2]!.high - 7, words: named, align: 'right' }
      : { kind: 'named', x: FROM + 2, y: band[0]!.low + 7, words: named, align: 'left' },
    { kind: 'means', x: 0, y: axis.high, words: half.means.join('\n') },
  ].map((row) => ({ panel, ...row }))
}

/** The voltage's axis of both halves, % of the middle. */
function axisOf(halves: readonly Half[]): { low: number; high: number } {
  const ys = halves.flatMap(({ lines }) => lines.flat()).map(({ y }) => y)
  return { low: Math.min(60, ...ys.map((y) => y - 10)), high: Math.max(150, ...ys.map((y) => y + 12)) }
}

const inX = { field: 'x', type: 'quantitative' } as const
const inY = { field: 'y', type: 'quantitative' } as const
const words = (look: object) => ({ type: 'text', align: { expr: 'datum.align' }, ...look })

/**
 * One calm picture for the customer: the lines of the cylinders that stand out against the band in which a line in order
 * stays, before beside after where both were recorded under the same conditions; where no spark burned, that.
 */
export function customerPicture(
  shown: ScenePair | { before: Scene; after?: undefined },
  how: { result: Result; texts: Texts; widthPt: number },
): ChartPlan {
  const { result, texts } = how
  const scenes = shown.after ? [shown.before, shown.after] : [shown.before]
  const both = scenes.length > 1
  const odd = oddOnes(result, shown.before)
  const widthPt = (how.widthPt - AXIS_PT - GAP_PT * (scenes.length - 1)) / scenes.length
  const halves = scenes.map((scene) => halfOf(scene, odd, { both, widthPt, texts }))
  const axis = axisOf(halves)
  const limit = riseLimit(result)
  const values = halves.flatMap((half, i) => rowsOf(half, i, { axis, limit, texts, size: { widthPt } }))
  const meansPt = LINE_PT * Math.max(...halves.map(({ means }) => means.length))
  const ends = `datum.value < 50 ? ${JSON.stringify(say(texts, 'chart.customer.begins'))} : ${JSON.stringify(say(texts, 'chart.customer.ends'))}`
  const who = odd.length > 0 ? cylindersWords(texts, odd) : say(texts, 'chart.customer.all')
  const seen = scenes.map((scene) =>
    say(texts, both ? ALTS[scene.stage] : 'chart.customer.alt-recorded', {
      means: meaning(scene, odd, texts),
    }),
  )
  const spec = liteSpec(texts.language, {
    params: [{ name: 'heads', value: halves.map(({ head }) => head) }],
    data: { name: 'picture', values },
    facet: {
      column: {
        field: 'panel',
        type: 'nominal',
        sort: null,
        header: {
          title: null,
          labelExpr: 'heads[datum.value]',
          labelAnchor: 'start',
          labelAlign: 'left',
          labelFontSize: TEXT_PT,
          labelFontWeight: STRONG,
          labelColor: INK,
          labelLimit: 0,
          labelPadding: meansPt - 3,
        },
      },
    },
    spacing: GAP_PT,
    spec: {
      width: widthPt,
      height: PANEL_HEIGHT_PT,
      encoding: {
        x: {
          ...inX,
          scale: { domain: [0, 100], nice: false },
          axis: {
            values: [0, 100],
            labelExpr: ends,
            title: null,
            grid: false,
            labelFlush: true,
            ticks: false,
          },
        },
        y: {
          ...inY,
          scale: { domain: [axis.low, axis.high], nice: false, zero: false },
          axis: {
            values: [100 - limit, 100, 100 + limit],
            title: say(texts, 'chart.customer.axis'),
            labelFontSize: SMALL_PT,
            format: '.0f',
            grid: false,
            domain: false,
          },
        },
      },
      layer: [
        {
          transform: only('band'),
          mark: { type: 'area', fill: WASH, opacity: 1 },
          encoding: { y: { ...inY, field: 'low' }, y2: { field: 'high' } },
        },
        {
          transform: only('edge'),
          mark: { type: 'line', stroke: QUIET, strokeWidth: 0.8 },
          encoding: { detail: { field: 'edge', type: 'nominal' } },
        },
        {
          transform: only('fellow'),
          mark: { type: 'line', stroke: QUIET, strokeWidth: 1.1 },
          encoding: { detail: { field: 'line', type: 'nominal' } },
        },
        {
          transform: only('line'),
          mark: { type: 'line', stroke: ACCENT, strokeWidth: odd.length > 0 ? 2.4 : 1.1 },
          encoding: { detail: { field: 'line', type: 'nominal' } },
        },
        {
          transform: only('arrow'),
          mark: { type: 'rule', stroke: INK, strokeWidth: 1 },
          encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
        },
        {
          transform: only('head'),
          mark: { type: 'point', shape: 'triangle', size: 26, filled: true, fill: INK, opacity: 1 },
          encoding: { angle: { field: 'turn', type: 'quantitative', scale: null } },
        },
        {
          transform: only('words'),
          mark: words({
            fontWeight: STRONG,
            baseline: 'middle',
            dx: { expr: "datum.align === 'right' ? -4 : datum.align === 'left' ? 4 : 0" },
          }),
          encoding: { text: { field: 'words' } },
        },
        {
          transform: only('named'),
          mark: words({ fontSize: SMALL_PT, fill: QUIET, baseline: 'middle' }),
          encoding: { text: { field: 'words' } },
        },
        {
          transform: only('means'),
          mark: {
            type: 'text',
            align: 'left',
            baseline: 'top',
            dy: -meansPt - 3,
            lineBreak: '\n',
            lineHeight: LINE_PT,
          },
          encoding: { text: { field: 'words' } },
        },
      ],
    },
  })
  return {
    id: 'customer',
    spec,
    place: 'customer',
    title: say(texts, both ? 'chart.customer.title-both' : 'chart.customer.title', { who }),
    alt: [
      say(texts, odd.length > 0 ? 'chart.customer.alt' : 'chart.customer.alt-each', { who }),
      ...seen,
    ].join(' '),
    widthPt: how.widthPt,
    heightPt: PANEL_HEIGHT_PT,
  }
}
