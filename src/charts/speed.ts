import type { DrawnSpeed } from '../records/drawn-traces.ts'
import type { Texts } from '../texts/messages.ts'
import { listWords } from '../texts/list-words.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import { drawingSpec, type BandRow, type Drawing, type RuleRow } from './drawing.ts'
import { SPEED } from './line-looks.ts'
import { xPt, type Frame } from './line-path.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'
import { drawPanels, type DrawnGrid, type Panel, type Place } from './panels.ts'
import type { Scene } from './scenes.ts'
import {
  findingWord,
  keySprays,
  LANE_PT,
  lanesOf,
  numberMark,
  sprayList,
  type KeyedSpray,
} from './spray-keys.ts'
import { FULL_WIDTH_PT, QUIET, WASH } from './theme.ts'
import { sentence, settingWords } from './words.ts'

const TRACE_HEIGHT_PT = 112
const STRIP_HEIGHT_PT = 50
const LIST_GAP_PT = 6

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

interface SpeedAxes {
  x: Axis
  y: Axis
}

function axesOf(speeds: readonly DrawnSpeed[]): SpeedAxes {
  const time = extent(speeds.map((s) => s.line.x))
  const speed = widened(extent(speeds.map((s) => s.line.y)))
  return {
    x: niceAxis(time.low, time.high, { most: 10, snug: true }),
    y: niceAxis(speed.low, speed.high, { most: 5 }),
  }
}

const panelOf = (speed: DrawnSpeed): Panel => ({
  head: speed.from === 'trace' ? '' : speed.file,
  aside: '',
  under: [],
  marks: [],
  lines: [{ line: speed.line, look: SPEED, role: 'speed' }],
})

function grid(
  speeds: readonly DrawnSpeed[],
  axes: SpeedAxes,
  how: { heightPt: number; clearPt: number; texts: Texts },
): DrawnGrid {
  return drawPanels({
    panels: speeds.map(panelOf),
    columns: 1,
    ...axes,
    xTitle: say(how.texts, 'chart.axis.time-s'),
    yTitle: say(how.texts, 'chart.axis.rpm'),
    panelHeightPt: how.heightPt,
    clearPt: how.clearPt,
    key: [],
    language: how.texts.language,
  })
}

/** Bands where a spray ran, with its number above; numbers that would touch step up a lane. */
function withSprays(drawn: DrawnGrid, sprays: readonly KeyedSpray[], texts: Texts): Drawing {
  const { drawing, frame } = drawn
  const place = drawn.places[0]!
  const lanes = lanesOf(sprays.map((s) => centre(s, frame)))
  const marks = sprays.map((s, i) =>
    numberMark(s, { x: place.left + centre(s, frame), y: place.top - LANE_PT * (lanes[i]! + 0.5) - 1 }),
  )
  const list = sprayList(
    sprays,
    { left: place.left, top: drawing.heightPt + LIST_GAP_PT, right: FULL_WIDTH_PT },
    texts,
  )
  const bands = sprays.flatMap((s) => bandOf(s, frame, place))
  return {
    ...drawing,
    heightPt: drawing.heightPt + LIST_GAP_PT + list.heightPt,
    bands,
    rules: [...drawing.rules, ...bands.flatMap(edges)],
    symbols: [...drawing.symbols, ...marks.map((m) => m.symbol), ...list.symbols],
    texts: [...drawing.texts, ...marks.map((m) => m.label), ...list.texts],
  }
}

const clamp = (frame: Frame, x: number) => Math.min(Math.max(xPt(frame, x), 0), frame.widthPt)
const centre = (s: KeyedSpray, frame: Frame) => clamp(frame, (s.fromS + s.toS) / 2)

function bandOf(s: KeyedSpray, frame: Frame, { left, top }: Place): BandRow[] {
  const [x, x2] = [left + clamp(frame, s.fromS), left + clamp(frame, s.toS)]
  return x2 > x ? [{ role: 'spray', x, x2, y: top, y2: top + frame.heightPt, fill: WASH }] : []
}

/** Edges of a band, for prints that lose its faint ground. */
const edges = ({ x, x2, y, y2 }: BandRow): RuleRow[] =>
  [x, x2].map((at) => ({ role: 'spray', x: at, x2: at, y, y2, stroke: QUIET, width: 0.5, dash: [1, 2] }))

/** 'Response at "rear joint" and "brake servo hose"; no response at "front joint"' */
function findingsWords(sprays: readonly KeyedSpray[], texts: Texts): string {
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
  const axes = axesOf([speed])
  const sprays = keySprays(speed.sprays)
  const bare = (clearPt: number) => grid([speed], axes, { heightPt: TRACE_HEIGHT_PT, clearPt, texts })
  const frame = bare(0).frame
  const lanes = 1 + Math.max(-1, ...lanesOf(sprays.map((s) => centre(s, frame))))
  const drawing = sprays.length > 0 ? withSprays(bare(lanes * LANE_PT + 2), sprays, texts) : bare(0).drawing
  const file = [speed.mark, speed.file].filter(Boolean).join(', ')
  const args = { file, ...range([speed]) }
  return {
    id,
    spec: drawingSpec(drawing),
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
    widthPt: drawing.widthPt,
    heightPt: drawing.heightPt,
  }
}

/** Engine speed from the ignition events of a scene's captures, one strip a capture on the same axes. */
export function speedOfEvents(scene: Scene, speeds: readonly DrawnSpeed[], texts: Texts): ChartPlan {
  const { drawing } = grid(speeds, axesOf(speeds), { heightPt: STRIP_HEIGHT_PT, clearPt: 0, texts })
  const setting = settingWords(texts, scene)
  return {
    id: `speed-${scene.id}`,
    spec: drawingSpec(drawing),
    place: 'figures',
    title: say(texts, 'chart.speed.title-events', { setting }),
    alt: say(texts, 'chart.speed.alt-events', { setting, ...range(speeds) }),
    widthPt: drawing.widthPt,
    heightPt: drawing.heightPt,
  }
}
