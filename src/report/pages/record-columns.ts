import { settingWords } from '../../charts/words.ts'
import type { Job } from '../../job/schema.ts'
import type { Result } from '../../records/result.ts'
import { decimalsFor } from '../../texts/format-quantity.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { captureRemarks, untestedSteps } from './method.ts'
import type { PageInput } from './page-input.ts'
import {
  dateWords,
  odometerWords,
  pair,
  quantity,
  series,
  stepWord,
  timeWords,
  vehicleWords,
} from './words.ts'

/** Columns of the record: the vehicle, the job, and how it was recorded. A field without a value is not on record. */

type Texts = PageInput['texts']
export type Field = readonly [name: string, value: string | null | undefined]

const VIN_CHECKS: Readonly<Record<Result['job']['vehicle']['vin_check'], WordKey>> = {
  passes: 'report.vin-check.passes',
  fails: 'report.vin-check.fails',
  'not given': 'report.vin-check.not-given',
  'not a VIN': 'report.vin-check.not-a-vin',
}
const IGNITIONS: Readonly<Record<Job['engine']['ignition'], WordKey>> = {
  distributor: 'report.ignition.distributor',
  'coil-per-cylinder': 'report.ignition.coil-per-cylinder',
  'wasted-spark': 'report.ignition.wasted-spark',
}

export function vehicleFields({ result, texts }: PageInput): Field[] {
  const { vehicle, engine } = result.job
  const t = sayer(texts)
  const litres =
    engine.displacement_l === null ? '' : quantity(texts, engine.displacement_l, { unit: 'l', decimals: 1 })
  const words = t('report.ccc.engine-words', {
    cylinders: engine.cylinders,
    strokes: engine.strokes,
    fuel: engine.fuel,
  })
  return [
    [t('report.ccc.make'), vehicleWords(vehicle)],
    [t('report.ccc.vin'), vehicle.vin],
    [t('report.ccc.vin-check'), say(texts, VIN_CHECKS[vehicle.vin_check])],
    [t('report.ccc.plate'), vehicle.plate],
    [t('report.ccc.unit'), vehicle.unit_number],
    [t('report.ccc.odometer'), vehicle.odometer && odometerWords(texts, vehicle.odometer)],
    [t('report.ccc.engine'), [words, litres].filter(Boolean).join(', ')],
    [t('report.ccc.ignition'), wordOf(texts, IGNITIONS, engine.ignition)],
    [t('report.ccc.firing-order'), engine.firing_order.join('-')],
    ...Object.entries(engine.banks ?? {}).map(([bank, cylinders]): Field => [
      say(texts, 'report.ccc.bank', { bank }),
      cylinders.join(', '),
    ]),
  ]
}

export function jobFields({ result, texts }: PageInput): Field[] {
  const t = sayer(texts)
  const { job, program } = result
  const { technician, customer } = job
  const repairs = result.tests.filter(({ step }) => step === 'repair').map(({ at }) => dateWords(texts, at))
  return [
    [say(texts, 'report.work-order'), job.work_order],
    [t('report.ccc.opened'), dateWords(texts, job.opened)],
    [t('report.record.worked'), [...new Set(repairs)].join(', ')],
    [t('report.ccc.closed'), job.closed && dateWords(texts, job.closed)],
    [t('report.ccc.shop'), job.shop.name],
    [t('report.ccc.technician'), technician.name],
    [t('report.ccc.certificate'), technician.certificate],
    [t('report.ccc.customer'), customer?.name],
    [t('report.ccc.contact'), customer?.contact],
    [t('report.ccc.reference'), customer?.reference],
    [
      t('report.record.signed'),
      program.certificate
        ? t('report.record.signed-by', {
            name: program.certificate.name,
            date: dateWords(texts, program.certificate.signed_at),
          })
        : t(program.signing_key === undefined ? 'report.record.unsigned' : 'report.record.sealed'),
    ],
    [t('report.record.untouched'), t('report.record.untouched-words')],
    [t('report.record.of-vehicle'), t('report.record.of-vehicle-words')],
  ]
}

/** Captures named one by one; further ones stand in the annex. */
const MOST_NAMED = 4

/** Under which conditions, with what, and by which rule. */
export function recordingFields({ result, texts }: PageInput): Field[] {
  const t = sayer(texts)
  const { instrument } = result.job
  const { calibration } = instrument
  const limit = result.limits.find(({ key }) => key === 'lateRisePct')
  const named = result.captures.slice(0, MOST_NAMED).map((c): Field => {
    return [c.mark, captureWords(texts, c)]
  })
  const figure = (value: number, how: { unit: string; isStated: boolean }) =>
    say(texts, how.isStated ? 'report.method.stated' : 'report.method.default', {
      figure: quantity(texts, value, { unit: how.unit, decimals: 0 }),
    })
  const certified =
    calibration &&
    series(texts, [
      calibration.date ? dateWords(texts, calibration.date) : t('report.not-given'),
      ...(calibration.due
        ? [pair(texts, t('report.method.calibration-due'), dateWords(texts, calibration.due))]
        : []),
      ...(calibration.certificate
        ? [pair(texts, t('report.method.calibration-certificate'), calibration.certificate)]
        : []),
    ])
  return [
    ...named,
    ...(result.captures.length > MOST_NAMED
      ? [
          [
            t('report.record.further'),
            t('report.record.more', { count: result.captures.length - MOST_NAMED }),
          ] as const,
        ]
      : []),
    [t('report.method.instrument-words'), instrument.description],
    [t('report.method.calibrated'), certified],
    [
      t('report.method.voltage'),
      figure(instrument.voltage_uncertainty_percent, {
        unit: '%',
        isStated: instrument.voltage_uncertainty_stated,
      }),
    ],
    [
      t('report.method.time'),
      figure(instrument.time_uncertainty_ppm, { unit: 'ppm', isStated: instrument.time_uncertainty_stated }),
    ],
    [t('report.record.remarks'), remarksWords(result, texts)],
    [
      t('report.record.untested'),
      series(
        texts,
        untestedSteps(result).map((step) => stepWord(texts, step)),
      ),
    ],
    [t('report.record.rule'), limit && t('report.record.rule-words', { limitPct: limit.value })],
  ]
}

/** Setting, time, length and rate of a capture, the engine's speed in it, and how many sparks it holds. */
function captureWords(texts: Texts, c: Result['captures'][number]): string {
  const { mean_rpm: speed } = c.speed
  return series(texts, [
    settingWords(texts, { ...c, turn: 1 }),
    timeWords(c.taken),
    say(texts, 'report.record.capture', {
      length: quantity(texts, c.duration_s, { unit: 's', decimals: 1 }),
      rate: quantity(texts, c.sample_rate_hz / 1000, { unit: 'kHz', decimals: 0 }),
    }),
    ...('value' in speed
      ? [quantity(texts, speed.value, { unit: 'rpm', decimals: decimalsFor('rpm') })]
      : []),
    say(texts, 'report.record.sparks', { count: c.events }),
  ])
}

/** Longest remark told on the record; longer ones, and more than one, are counted. */
const MOST_SIGNS = 160

/** What limits the recordings, by the remarks made on their data. */
function remarksWords(result: Result, texts: Texts): string {
  const remarks = captureRemarks(result.captures, texts)
  if (remarks.length === 0) return say(texts, 'report.record.no-remarks')
  return remarks.length === 1 && remarks[0]!.length <= MOST_SIGNS
    ? remarks[0]!
    : say(texts, 'report.record.remarks-count', {
        count: remarks.length,
        title: say(texts, 'report.method.title'),
      })
}
