import type { DrawnCylinder, DrawnSpeed, DrawnTraces } from '../records/drawn-traces.ts'
import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import { beforeAfterLines } from './before-after-lines.ts'
import { beforeAfterRise } from './before-after-rise.ts'
import { causesStanding } from './causes.ts'
import type { ChartPlan } from './chart-plan.ts'
import { comparisonOf } from './comparison.ts'
import { customerPicture } from './customer.ts'
import { engineFromAbove } from './engine-top.ts'
import { firingAxis, firingVoltage, isFiringShown } from './firing-voltage.ts'
import { leakHuntChart } from './leak-hunt.ts'
import { lateRise, riseAxis, riseLimit } from './late-rise.ts'
import { scenePairs, scenesOf, type Scene } from './scenes.ts'
import { sparkAxes } from './spark-axes.ts'
import { sparkLines } from './spark-lines.ts'
import { BETWEEN_PT, FULL_WIDTH_PT } from './theme.ts'
import { areRelative } from './words.ts'
import { speedOfEvents, speedTrace } from './speed.ts'

const drawnIn = (scenes: readonly Scene[]): DrawnCylinder[] =>
  scenes.flatMap((s) => s.cylinders).flatMap((c) => (c.drawn ? [c.drawn] : []))

/** Scenes of one condition share their axes over both stages, so that before and after can be compared page by page. */
const sharing = (scenes: readonly Scene[], scene: Scene) =>
  scenes.filter(
    (s) => s.condition === scene.condition && areRelative(s.cylinders) === areRelative(scene.cylinders),
  )

function figureCharts(
  scene: Scene,
  scenes: readonly Scene[],
  how: { result: Result; traces: DrawnTraces; texts: Texts },
): ChartPlan[] {
  const { result, traces, texts } = how
  const shared = sharing(scenes, scene)
  const limit = riseLimit(result)
  const lines = drawnIn([scene]).length > 0
  const records = scene.cylinders.some((c) => c.record)
  const speeds = traces.speeds.filter(
    (s) => s.from === 'events' && s.stage === scene.stage && scene.captures.includes(s.file),
  )
  const axes = sparkAxes(drawnIn(shared))
  return [
    ...(lines ? [sparkLines(scene, axes, texts)] : []),
    ...(records
      ? [
          lateRise(scene, { axis: riseAxis(shared, limit), limit, texts }),
          ...(isFiringShown(scene) ? [firingVoltage(scene, firingAxis(shared), texts)] : []),
        ]
      : []),
    ...(speeds.some((s) => s.line.x.length > 1)
      ? [
          speedOfEvents(
            scene,
            speeds.filter((s) => s.line.x.length > 1),
            texts,
          ),
        ]
      : []),
  ]
}

/** The customer's picture with the engine from above beside it; the engine alone where nothing was recorded that could be drawn. */
function customerCharts(scenes: readonly Scene[], result: Result, texts: Texts): ChartPlan[] {
  const engine = engineFromAbove(result, texts)
  const withLines = scenes.filter((s) => drawnIn([s]).length > 0)
  const pair = comparisonOf(result).voltages ? scenePairs(withLines)[0] : undefined
  const shown = pair ?? (withLines[0] ? { before: withLines[0] } : undefined)
  if (!shown) return [engine]
  return [
    customerPicture(shown, { result, texts, widthPt: FULL_WIDTH_PT - BETWEEN_PT - engine.widthPt }),
    engine,
  ]
}

function beforeAfterCharts(scenes: readonly Scene[], result: Result, texts: Texts): ChartPlan[] {
  const limit = riseLimit(result)
  const { shares, voltages } = comparisonOf(result)
  return scenePairs(scenes).flatMap((pair) => {
    const both = [pair.before, pair.after]
    const drawn = drawnIn(both)
    return [
      ...(shares && both.every((s) => s.cylinders.some((c) => c.record))
        ? [beforeAfterRise(pair, { axis: riseAxis(both, limit), limit, texts })]
        : []),
      ...(voltages && both.every((s) => drawnIn([s]).length > 0)
        ? [beforeAfterLines(pair, sparkAxes(drawn), texts)]
        : []),
    ]
  })
}

/** Slow traces in the order given; a number in the file name, since names of traces may be alike once made fit for files. */
const traceCharts = (speeds: readonly DrawnSpeed[], texts: Texts): ChartPlan[] =>
  speeds
    .filter((s) => s.from === 'trace' && s.line.x.length > 1)
    .map((s, i) => speedTrace(s, `speed-trace-${i + 1}`, texts))

/** Title and description go with the spec, so that an SVG file read alone still says what it shows. */
const described = (plan: ChartPlan): ChartPlan => ({
  ...plan,
  spec: { ...plan.spec, description: plan.alt, usermeta: { title: plan.title } } as ChartPlan['spec'],
})

/**
 * Every chart of a report, in the order they are read. Pure: the same result and lines give the same specs.
 * @param traces  thinned lines to draw; a chart without lines is left out
 */
export function chartsOf(result: Result, traces: DrawnTraces, texts: Texts): ChartPlan[] {
  const scenes = scenesOf(result, traces)
  return [
    ...customerCharts(scenes, result, texts),
    ...scenes.flatMap((scene) => figureCharts(scene, scenes, { result, traces, texts })),
    ...(result.leak_hunt ? [leakHuntChart(result.leak_hunt, result.job.engine, texts)] : []),
    ...traceCharts(traces.speeds, texts),
    ...(result.causes.length > 0 ? [causesStanding(result.causes, texts)] : []),
    ...beforeAfterCharts(scenes, result, texts),
  ].map(described)
}
