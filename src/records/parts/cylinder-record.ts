import type { FigureName } from '../../metrics/figures.ts'
import { absent } from '../../units/measured.ts'
import type { Texts } from '../../texts/messages.ts'
import type { JudgedCylinder } from '../../verdicts/judge-engine.ts'
import { FIGURE_COLUMNS } from '../columns.ts'
import { toDigits } from '../round.ts'
import type { CylinderRecord } from '../result.ts'
import { availableRecord, figureRecord, intervalRecord, needsRatio } from './figure-record.ts'
import { cylinderMark } from './marks.ts'
import { statement } from './statement.ts'

/** One cylinder of one capture: its figures, and the verdict with the rule, limits and sources it rests on. */
export function cylinderRecord(
  texts: Texts,
  { measures, judgement, condition, running, kvKnown, againstFellows, apart }: JudgedCylinder,
  captureMark: string,
): CylinderRecord {
  return {
    mark: cylinderMark(captureMark, measures.cylinder),
    stage: measures.stage,
    capture: measures.capture,
    cylinder: measures.cylinder,
    verdict: judgement.verdict,
    rule: judgement.rule,
    limits: [...judgement.limits],
    sources: [...judgement.sources],
    reason: statement(texts, judgement.reason),
    events: measures.events,
    misfires: measures.misfires,
    ...(measures.wentOut ? { went_out: measures.wentOut } : {}),
    partial: measures.partial,
    wasted: measures.wasted,
    classes: Object.fromEntries(
      Object.entries(measures.classShares).map(([name, share]) => [name, toDigits(share, 4)]),
    ),
    figures: Object.fromEntries(
      (Object.keys(FIGURE_COLUMNS) as FigureName[]).map((name) => [
        FIGURE_COLUMNS[name].column,
        figureRecord(kvKnown || !needsRatio(name) ? measures.figures[name] : absent('ratio-unknown')),
      ]),
    ),
    condition,
    running,
    basis: judgement.basis ?? null,
    apart: apart.map((a) => ({
      figure: a.figure,
      direction: a.direction,
      against: a.against,
      size: intervalRecord(a.size),
      limits: [...a.limits],
      says: statement(texts, a.says),
    })),
    against_fellows: availableRecord(againstFellows),
    left_out: measures.leftOut ?? 0,
  }
}
