import type { Spec } from 'vega'
import { describe, expect, test } from 'vitest'
import type { LineLook } from '../../src/charts/drawing.ts'
import * as looks from '../../src/charts/line-looks.ts'
import { ACCENT, FAINT, INK, PAPER, QUIET } from '../../src/charts/theme.ts'
import { VERDICT_LOOKS } from '../../src/charts/verdict-shapes.ts'
import { verdictNames } from '../../src/verdicts/verdict-names.ts'
import { JOBS, plansOf, sprays, texts } from './chart-jobs.ts'

const rowsOf = <T>(spec: unknown, name: string): T[] =>
  ((spec as Spec).data as { name: string; values: T[] }[]).find((d) => d.name === name)!.values

/** Relative luminance and contrast ratio: WCAG 2.1, definitions; limits 4.5 (1.4.3, text) and 3 (1.4.11, graphics). */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
}
const contrast = (a: string, b: string) => {
  const [dark, light] = [luminance(a), luminance(b)].toSorted((x, y) => x - y)
  return (light! + 0.05) / (dark! + 0.05)
}

describe('nothing is told by colour alone', () => {
  test('letters and lines stand out from the paper', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6)
    for (const colour of [INK, QUIET, ACCENT]) expect(contrast(colour, PAPER)).toBeGreaterThan(4.5)
    expect(contrast(FAINT, PAPER)).toBeGreaterThan(3)
  })

  test('kinds of line that share a panel differ in weight or dash', () => {
    const plainly = (a: Pick<LineLook, 'width' | 'dash'>, b: Pick<LineLook, 'width' | 'dash'>) =>
      String(a.dash ?? '') !== String(b.dash ?? '') ||
      Math.max(a.width, b.width) >= 2 * Math.min(a.width, b.width)
    expect(plainly(looks.EVENT, looks.MEDIAN)).toBe(true)
    expect(plainly(looks.OTHERS, looks.MEDIAN)).toBe(true)
    expect(plainly(looks.BEFORE, looks.AFTER)).toBe(true)
    for (const plan of plansOf(JOBS[1]![1])) {
      const scales = (plan.spec as { scales?: { name: string; domain: string[]; range: unknown[] }[] }).scales
      const rangeOf = (name: string) => scales?.find((scale) => scale.name === name)
      const roles = rangeOf('width')?.domain ?? []
      const looksOf = roles.map((role, i) => ({
        role,
        width: rangeOf('width')!.range[i] as number,
        dash: rangeOf('dash')!.range[i] as number[],
      }))
      for (const one of looksOf)
        for (const other of looksOf)
          if (one.role !== other.role)
            expect([plan.id, one.role, other.role, plainly(one, other)]).toEqual([
              plan.id,
              one.role,
              other.role,
              true,
            ])
    }
  })

  test('verdicts of different groups have different outlines, and what is in order is hollow', () => {
    const groups = [
      ['level'],
      ['lean'],
      ['falling', 'rich', 'low compression'],
      ['borderline'],
      ['external resistance', 'open secondary'],
      ['misfiring'],
      ['not judged'],
    ] as const
    expect(groups.flat().toSorted()).toEqual([...verdictNames].toSorted())
    const shapes = groups.map((group) => new Set(group.map((v) => VERDICT_LOOKS[v].shape)))
    expect(shapes.every((s) => s.size === 1)).toBe(true)
    expect(new Set(shapes.map((s) => [...s][0])).size).toBe(groups.length)
    expect(VERDICT_LOOKS.level.fill).toBe(PAPER)
  })

  test("the verdict's word stands beside every mark", () => {
    const plan = plansOf(JOBS[4]![1]).find((p) => p.id === 'late-rise-before-idle-warm')!
    const layers = (
      plan.spec as unknown as { layer: { data: { name: string; values: { row: string; word: string }[] } }[] }
    ).layer
    const words = new Map(
      layers.find((l) => l.data.name === 'beside0')!.data.values.map((v) => [v.row, v.word]),
    )
    expect(words.get('5')).toBe(texts.templates['chart.verdict.lean'])
    expect(words.get('3')).toBe(texts.templates['chart.verdict.external-resistance'])
    expect(words.size).toBe(12)
  })

  test('findings of sprays differ by filling or outline and are written out beside their number', () => {
    const plan = plansOf({ drawn: { sprays: sprays(3) } }).find((p) => p.id === 'speed-trace-1')!
    const findings = rowsOf<{ finding: string }>(plan.spec, 'sprays').map(({ finding }) => finding)
    const { scales } = plan.spec as unknown as {
      scales: { name: string; domain: string[]; range: string[] }[]
    }
    const lookOf = (name: string, finding: string) => {
      const { domain, range } = scales.find((scale) => scale.name === name)!
      return range[domain.indexOf(finding)]!
    }
    const marks = findings.map(
      (f) => `${lookOf('shape', f)} ${lookOf('fill', f) === PAPER ? 'hollow' : 'filled'}`,
    )
    expect(new Set(marks).size).toBe(3)
    const names = rowsOf<{ words: string[] }>(plan.spec, 'list')
      .flatMap(({ words }) => words)
      .join(' ')
    for (const finding of ['no\u00a0response', ': response', 'unclear']) expect(names).toContain(finding)
  })
})
