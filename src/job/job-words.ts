import type { WordKey } from '../texts/messages.ts'
import type { Step } from './log-steps.ts'
import type { Job } from './schema.ts'

type Capture = Job['captures'][number]

/** How the engine ran while a capture was taken. */
export const CONDITION_WORDS: Readonly<Record<Capture['condition'], WordKey>> = {
  idle: 'chart.condition.idle',
  '2500 rpm': 'chart.condition.2500-rpm',
  snap: 'chart.condition.snap',
  cranking: 'chart.condition.cranking',
  cruise: 'chart.condition.cruise',
}

/** A step of the test log. */
export const STEP_WORDS: Readonly<Record<Step, WordKey>> = {
  spray: 'report.step.spray',
  cap: 'report.step.cap',
  uncap: 'report.step.uncap',
  smoke: 'report.step.smoke',
  trim: 'report.step.trim',
  gas: 'report.step.gas',
  'fuel-pressure': 'report.step.fuel-pressure',
  vacuum: 'report.step.vacuum',
  compression: 'report.step.compression',
  code: 'report.step.code',
  airflow: 'report.step.airflow',
  repair: 'report.step.repair',
  photo: 'report.step.photo',
  note: 'report.step.note',
}
