import type { Spec } from 'vega'
import type { DrawnSpeed } from '../records/drawn-traces.ts'
import { listWords } from '../texts/list-words.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { VEGA_SCHEMA, type ChartPlan } from './chart-plan.ts'
import { SPEED } from './line-looks.ts'
import { linePanels, linePanelWidthPt, pointsIn } from './line-panels.ts'
import { xPt } from './line-path.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'
import { numberLocale } from './number-locale.ts'
import type { Scene } from './scenes.ts'
import { findingWord, keySprays, LANE_PT, lanesOf, LINE_PT, LOOKS, MARK_PT, sprayList } from './spray-keys.ts'
import {
  FONT,
  FULL_WIDTH_PT,
  INK,
  PAPER,
  QUIET,
  SMALL_PT,
  STRONG,
  TEXT_PT,
  VEGA_CONFIG,
  WASH,
} from './theme.ts'
import { sentence, settingWords } from './words.ts'
import { wrapText } from './wrap-text.ts'

const TRACE_HEIGHT_PT = 112
const STRIP_HEIGHT_PT = 50
const LEFT_PT = 36
const RIGHT_PT = 4
const WIDTH_PT = FULL_WIDTH_PT - LEFT_PT - RIGHT_PT
/** Numbers and title of the time axis. */
const BELOW_PT = 26
const LIST_GAP_PT = 6
/** The top tick's number reaches this far above the plot. */
const ABOVE_PT = 5

/** Least and greatest of arrays that may hold thousands of values. */
function extent(lines: readonly (readonly number[])[]): { low: number; high: number } {
  let [low, high] = [Infinity, -Infinity]
  for (const line of lines) {
    for (const v of line) {
      if (v < low) low = v
      if (v > high) high = v
    }
  }
  return { low, high }
}

/** Least span of the speed axis, rpm: on a narrower one a steady idle would look unsteady. */
const LEAST_SPAN_RPM = 100

/** The extent, widened about its middle to the least span. */
function widened({ low, high }: { low: number; high: number }): { low: number; high: number } {
  const missing = Math.max(0, LEAST_SPAN_RPM - (high - low)) / 2
  return { low: Math.max(0, low - missing), high: high + missing }
}

function axesOf(speeds: readonly DrawnSpeed[]): { x: Axis; y: Axis } {
  const time = extent(speeds.map((s) => s.line.x))
  const speed = widened(extent(speeds.map((s) => s.line.y)))
  return {
    x: niceAxis(time.low, time.high, { most: 10, snug: true }),
    y: niceAxis(speed.low, speed.high, { most: 5 }),
  }
}

/** 'Response at "rear joint" and "brake servo hose"; no response at "front joint"' */
function findingsWords(sprays: DrawnSpeed['sprays'], texts: Texts): string {
  const findings = [...new Set(sprays.map((s) => s.finding))]
  const parts = findings.map((finding) =>
    say(texts, 'chart.speed.alt-finding', {
      finding: findingWord(finding, texts),
      places: listWords(texts, [
        ...new Set(
          sprays
            .filter((s) => s.finding === finding)
            .map((s) => say(texts, 'chart.quoted', { words: s.place })),
        ),
      ]),
    }),
  )
  return sentence(parts.join(say(texts, 'chart.rise.join')))
}

const range = (speeds: readonly DrawnSpeed[]) => {
  const { low, high } = extent(speeds.map((s) => s.line.y))
  const rpm = (value: number) => ({ value, low: value, high: value, unit: 'rpm' as const })
  return { low: rpm(low), high: rpm(high) }
}

/** Engine speed of one slow trace, with the sprays of the log as numbered bands and a list that names them. */
export function speedTrace(speed: DrawnSpeed, id: string, texts: Texts): ChartPlan {
  const sprays = keySprays(speed.sprays)
  const drawn = traceSpec(speed, sprays, texts)
  const file = [speed.mark, speed.file].filter(Boolean).join(', ')
  const args = { file, ...range([speed]) }
  return {
    id,
    ...drawn,
    place: 'tests',
    marks: speed.sprays.flatMap(({ mark }) => mark ?? []),
    title: say(texts, sprays.length > 0 ? 'chart.speed.title-sprays' : 'chart.speed.title-trace', { file }),
    alt:
      sprays.length > 0
        ? say(texts, 'chart.speed.alt-sprays', {
            ...args,
            sprays: sprays.length,
            findings: findingsWords(sprays, texts),
          })
        : say(texts, 'chart.speed.alt-trace', args),
  }
}

const field = (scale: string, name: string, more: object = {}) => ({ scale, field: name, ...more })
const ofFinding = (scale: string) => field(scale, 'finding')

/** The trace as a Vega spec: time and speed, the lanes of the numbers above, and the lines of the list below have scales each. */
function traceSpec(
  speed: DrawnSpeed,
  sprays: ReturnType<typeof keySprays>,
  texts: Texts,
): { spec: Spec; widthPt: number; heightPt: number } {
  const { x, y } = axesOf([speed])
  const frame = { x, y, widthPt: WIDTH_PT, heightPt: TRACE_HEIGHT_PT }
  const within = (s: number) => Math.min(Math.max(s, x.low), x.high)
  const marked = sprays.map(({ number, finding, fromS, toS }) => ({
    number,
    finding,
    from: within(fromS),
    to: within(toS),
    at: within((fromS + toS) / 2),
  }))
  const lanes = lanesOf(marked.map(({ at }) => xPt(frame, at)))
  const lanesPt = LANE_PT * (1 + Math.max(-1, ...lanes))
  const list = sprayList(sprays, WIDTH_PT, texts)
  const listTop = TRACE_HEIGHT_PT + BELOW_PT + LIST_GAP_PT
  const listPt = list.lines > 0 ? LIST_GAP_PT + list.lines * LINE_PT : 0
  const top = ABOVE_PT + (sprays.length > 0 ? lanesPt + 2 : 0)
  const linear = (name: string, domain: readonly number[], to: readonly number[]) => ({
    name,
    type: 'linear',
    domain,
    range: to,
    zero: false,
    nice: false,
  })
  const findings = Object.keys(LOOKS)
  const ordinal = (name: string, of: (finding: keyof typeof LOOKS) => string) => ({
    name,
    type: 'ordinal',
    domain: findings,
    range: (findings as (keyof typeof LOOKS)[]).map(of),
  })
  const axis = {
    grid: true,
    domain: false,
    ticks: false,
    titleFont: FONT,
    titleFontSize: TEXT_PT,
    titleFontWeight: 400,
    titleColor: QUIET,
  }
  const edge = (at: 'from' | 'to') => ({
    type: 'rule',
    from: { data: 'bands' },
    encode: {
      enter: {
        x: field('x', at),
        y: { value: 0 },
        y2: { value: TRACE_HEIGHT_PT },
        stroke: { value: QUIET },
        strokeWidth: { value: 0.5 },
        strokeDash: { value: [1, 2] },
      },
    },
  })
  /** A number in the outline of its finding. */
  const numbered = (data: string, at: object) => [
    {
      type: 'symbol',
      from: { data },
      encode: {
        enter: {
          ...at,
          size: { value: MARK_PT ** 2 },
          shape: ofFinding('shape'),
          fill: ofFinding('fill'),
          stroke: ofFinding('edge'),
          strokeWidth: { value: 0.8 },
        },
      },
    },
    {
      type: 'text',
      from: { data },
      encode: {
        enter: {
          ...at,
          text: { field: 'number' },
          fill: ofFinding('ink'),
          align: { value: 'center' },
          baseline: { value: 'middle' },
          fontSize: { value: SMALL_PT },
          fontWeight: { value: STRONG },
        },
      },
    },
  ]
  const inList = { x: field('column', 'column', { offset: MARK_PT / 2 }), y: field('line', 'line') }
  const spec = {
    $schema: VEGA_SCHEMA,
    config: { ...VEGA_CONFIG, locale: { number: numberLocale(texts.language) } },
    autosize: 'none',
    padding: { left: LEFT_PT, right: RIGHT_PT, top, bottom: BELOW_PT + listPt },
    width: WIDTH_PT,
    height: TRACE_HEIGHT_PT,
    data: [
      { name: 'speed', values: pointsIn(speed.line, frame, SPEED.tolerancePt) },
      { name: 'sprays', values: marked.map((spray, i) => ({ ...spray, lane: lanes[i]! })) },
      { name: 'bands', source: 'sprays', transform: [{ type: 'filter', expr: 'datum.to > datum.from' }] },
      { name: 'list', values: list.entries },
    ],
    scales: [
      linear('x', [x.low, x.high], [0, WIDTH_PT]),
      linear('y', [y.low, y.high], [TRACE_HEIGHT_PT, 0]),
      linear('lane', [0, 1], [-1 - LANE_PT / 2, -1 - 1.5 * LANE_PT]),
      linear('column', [0, 1], [0, list.stepPt]),
      linear('line', [0, 1], [listTop + LINE_PT / 2 + 1, listTop + 1.5 * LINE_PT + 1]),
      ordinal('shape', (finding) => LOOKS[finding].shape),
      ordinal('fill', (finding) => LOOKS[finding].fill),
      ordinal('edge', (finding) => (LOOKS[finding].fill === PAPER ? INK : LOOKS[finding].fill)),
      ordinal('ink', (finding) => LOOKS[finding].ink),
    ],
    axes: [
      {
        ...axis,
        scale: 'y',
        orient: 'left',
        tickCount: y.ticks.length - 1,
        format: `.${y.decimals}f`,
        title: say(texts, 'chart.axis.rpm'),
        titleX: -LEFT_PT + 10,
      },
      {
        ...axis,
        scale: 'x',
        orient: 'bottom',
        tickCount: Math.max(2, x.ticks.length - 1),
        labelOverlap: 'greedy',
        labelSeparation: 4,
        labelFlush: false,
        format: `.${x.decimals}f`,
        title: say(texts, 'chart.axis.time-s'),
        titleY: BELOW_PT - 10,
      },
    ],
    marks: [
      {
        type: 'rect',
        from: { data: 'bands' },
        encode: {
          enter: {
            x: field('x', 'from'),
            x2: field('x', 'to'),
            y: { value: 0 },
            y2: { value: TRACE_HEIGHT_PT },
            fill: { value: WASH },
          },
        },
      },
      // Edges, for prints that lose a band's faint ground.
      edge('from'),
      edge('to'),
      {
        type: 'line',
        from: { data: 'speed' },
        encode: {
          enter: {
            x: field('x', 'x'),
            y: field('y', 'y'),
            defined: { signal: 'isNumber(datum.y)' },
            stroke: { value: SPEED.stroke },
            strokeWidth: { value: SPEED.width },
            strokeJoin: { value: 'round' },
          },
        },
      },
      ...numbered('sprays', { x: field('x', 'at'), y: field('lane', 'lane') }),
      ...numbered('list', inList),
      {
        type: 'text',
        from: { data: 'list' },
        encode: {
          enter: {
            x: field('column', 'column', { offset: MARK_PT + 5 }),
            y: field('line', 'line', { offset: 0 }),
            text: { field: 'words' },
            fontSize: { value: TEXT_PT },
            lineHeight: { value: LINE_PT },
            baseline: { value: 'middle' },
          },
        },
      },
    ],
  }
  return {
    spec: spec as unknown as Spec,
    widthPt: FULL_WIDTH_PT,
    heightPt: top + TRACE_HEIGHT_PT + BELOW_PT + listPt,
  }
}

/** Engine speed from the ignition events of a scene's captures, one strip a capture on the same axes. */
export function speedOfEvents(scene: Scene, speeds: readonly DrawnSpeed[], texts: Texts): ChartPlan {
  const setting = settingWords(texts, scene)
  return {
    id: `speed-${scene.id}`,
    ...linePanels({
      panels: speeds.map(({ file, line }) => ({
        head: wrapText(file, linePanelWidthPt(1), { sizePt: TEXT_PT, face: 'strong' }),
        aside: '',
        under: [],
        marks: [],
        lines: [{ line, role: 'speed' }],
      })),
      columns: 1,
      ...axesOf(speeds),
      xTitle: say(texts, 'chart.axis.time-s'),
      yTitle: say(texts, 'chart.axis.rpm'),
      panelHeightPt: STRIP_HEIGHT_PT,
      kinds: { speed: { look: SPEED } },
      language: texts.language,
    }),
    place: 'figures',
    title: say(texts, 'chart.speed.title-events', { setting }),
    alt: say(texts, 'chart.speed.alt-events', { setting, ...range(speeds) }),
  }
}
