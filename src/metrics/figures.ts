import type { EventFlag } from '../ignition/event.ts'
import type { AbsenceCode, Measured, Unit } from '../units/measured.ts'
import type { WithSpeed } from './with-speed.ts'

/** Figures of one event and their units: one row a metric file. */
export const FIGURE_UNITS = {
  firingKv: 'kV',
  burnMs: 'ms',
  startKv: 'kV',
  midKv: 'kV',
  lateKv: 'kV',
  lateRiseKv: 'kV',
  lateRisePct: '%',
  earlyChangeKv: 'kV',
  earlySlopeKvPerMs: 'kV/ms',
  lateSlopeKvPerMs: 'kV/ms',
  roughnessKv: 'kV',
  energyMj: 'mJ',
  coilCycles: 'cycles',
  coilKhz: 'kHz',
  damping: '1',
  dwellMs: 'ms',
  rpm: 'rpm',
} as const satisfies Record<string, Unit>

export type FigureName = keyof typeof FIGURE_UNITS
type FigureUnit<N extends FigureName> = (typeof FIGURE_UNITS)[N]
export type EventFigures = { readonly [N in FigureName]: EventFigure<FigureUnit<N>> }

/** A measured figure; where it has a budget, u is the root sum of squares of its lines. */
export type EventFigure<U extends Unit> = Measured<U> & { readonly budget?: readonly BudgetLine[] }

/** This event's own shape, from its own figures and their uncertainty. */
export type EventClass = 'level' | 'lean' | 'falling' | 'no spark line' | 'went out' | 'wasted' | 'unclear'

export interface MeasuredEvent {
  capture: string
  stage: 'before' | 'after'
  cylinder: number | undefined
  number: number
  kind: 'firing' | 'wasted'
  breakdownS: number
  /** Index of its frame; undefined where the record is one. Turns and speed are counted within frames only. */
  frame?: number | undefined
  /** Breakdown on the file's own clock, s, where that starts anew in every frame. */
  clockS?: number
  /** Highest sample of the firing line above the level before, kV: what the voltage reached at least. */
  topKv?: number
  /** How long it stands near that top, ms (see `topLastsMs`). */
  topLastsMs?: number
  figures: EventFigures
  class: EventClass
  flags: readonly EventFlag[]
}

/**
 * One line of an uncertainty budget (JCGM 100): where it comes from and its standard uncertainty in the figure's unit.
 * Of one event: noise, sampling and quantisation differ from event to event; method is common to all events of a
 * capture, and so are pickup: its droop, and zero: what the recorder's steps leave open in the level before the event. `captures` is what differs between captures taken together. Of a cylinder: the root sum of squares of the lines is the half width of the 95 % interval over 1.96.
 */
export interface BudgetLine {
  source:
    | 'instrument'
    | 'scatter'
    | 'sampling'
    | 'quantisation'
    | 'noise'
    | 'method'
    | 'zero'
    | 'pickup'
    | 'captures'
  u: number
  /** Of the pickup's droop, whose doubt may lie to one side: how far the truth may lie below and above the value, at 95 %. */
  sides?: { down: number; up: number }
  /** Of an event's quantisation: height of the recorder's step, in the figure's unit. */
  step?: number
}

/** Median over a cylinder's events with its 95 % interval, instrument uncertainty included. */
export type Summary<U extends Unit = Unit> =
  | {
      ok: true
      value: number
      low: number
      high: number
      unit: U
      mad: number
      n: number
      budget: readonly BudgetLine[]
      /** Of a firing voltage that lies clearly beyond the samples: the middle of the events' highest ones, kV. */
      extrapolatedFrom?: number
    }
  | {
      ok: false
      why: AbsenceCode
      /** The median is at least so much, at 95 %; its upper end is not known. */
      atLeast?: number
    }

export type CylinderSummaries = { readonly [N in FigureName]: Summary<FigureUnit<N>> }

/** Median top over events without a spark line and its 95 % interval, kV; `clipped`: at the recorder's limit, so at least that; median time near the top. */
export interface NoLineTop {
  value: number
  low: number
  high: number
  n: number
  clipped: boolean
  lastsMs: number
}

/** One cylinder in one capture, measured and not yet judged. */
export interface CylinderMeasures {
  stage: 'before' | 'after'
  capture: string
  cylinder: number
  /** Complete firing events used. */
  events: number
  /** Events cut by the file's edge; wasted events; among `events`, those without a spark line or with a stub of one. */
  partial: number
  wasted: number
  misfires: number
  /** Among `events`, arcs that went out before they were a spark line, and the events whose lines the figures rest on. */
  wentOut?: number
  lines?: number
  /** Turns that went by without an event; not among `events`. */
  missing?: number
  /** Events not of the capture's condition by their own speed (see own-speed.ts); not among `events`. */
  leftOut?: number
  /** Set where neighbouring events are alike and few: working cycles to record before more than the recording is spoken of. */
  cyclesNeeded?: number
  /** Late rise, %, at both ends of the swing of the speed, where it depends on it. */
  riseWithSpeed?: WithSpeed
  /** How high the voltage went in the events without a spark line; absent below six of them. */
  noLineTop?: NoLineTop
  /** Share of events in each class, 0..1. */
  classShares: Readonly<Partial<Record<EventClass, number>>>
  figures: CylinderSummaries
}

/** Engine speed of one capture from its events. */
export interface SpeedMeasures {
  capture: string
  stage: 'before' | 'after'
  mean: Summary<'rpm'>
  /** Standard deviation of cycle speed, rpm. */
  spread: Measured<'rpm'>
  /** Peak to peak of the unsteady idle, and its period; absent where no period stands out. */
  swing: Measured<'rpm'>
  swingPeriod: Measured<'s'>
}
