import { say } from '../../texts/say.ts'
import type { Result } from '../../records/result.ts'
import { beside } from '../blocks/beside.ts'
import { heading } from '../blocks/heading.ts'
import { keyValues } from '../blocks/key-values.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import type { PageInput, Section } from './page-input.ts'
import { dateWords, quantity, stated, vehicleWords, wordFor } from './words.ts'

/** Complaint, cause and correction as a claim needs them, with the identity of vehicle, shop and customer. */
export function complaintCauseCorrection({ result, texts }: PageInput): Section {
  const t = (key: string) => say(texts, `report.ccc.${key}`)
  const { job, repair } = result
  const correction = job.correction ?? (repair.work.length > 0 ? repair.work.join('; ') : null)
  return {
    title: t('title'), level: 2, newPage: true,
    blocks: [
      keyValues(stated(texts, [
        [t('complaint'), job.complaint], [t('cause'), job.cause], [t('correction'), correction],
        [t('proof'), repair.says.text],
      ]), { nameShare: 0.17 }),
      paragraph(t('supplied'), { color: 'quiet' }),
      beside([
        stack([heading(3, t('vehicle')), keyValues(vehicleFields(result, texts))]),
        stack([heading(3, t('job')), keyValues(jobFields(result, texts))]),
      ]),
    ],
  }
}

type Texts = PageInput['texts']

function vehicleFields({ job: { vehicle, engine } }: Result, texts: Texts) {
  const t = (key: string) => say(texts, `report.ccc.${key}`)
  return stated(texts, [
    [t('make'), vehicleWords(vehicle)],
    [t('vin'), vehicle.vin],
    [t('vin-check'), wordFor(texts, 'vin-check', vehicle.vin_check)],
    [t('plate'), vehicle.plate], [t('unit'), vehicle.unit_number],
    [t('odometer'), vehicle.odometer && quantity(texts, vehicle.odometer.value, { unit: vehicle.odometer.unit, decimals: 0 })],
    [t('engine'), say(texts, 'report.ccc.engine-words', { cylinders: engine.cylinders, strokes: engine.strokes, fuel: engine.fuel })],
    [t('displacement'), engine.displacement_l === null ? null : quantity(texts, engine.displacement_l, { unit: 'l', decimals: 1 })],
    [t('ignition'), wordFor(texts, 'ignition', engine.ignition)],
    [t('firing-order'), engine.firing_order.join('-')],
    ...Object.entries(engine.banks ?? {}).map(([bank, cylinders]) =>
      [say(texts, 'report.ccc.bank', { bank }), cylinders.join(', ')] as const),
  ])
}

function jobFields({ job }: Result, texts: Texts) {
  const t = (key: string) => say(texts, `report.ccc.${key}`)
  const { shop, technician, customer } = job
  return stated(texts, [
    [say(texts, 'report.work-order'), job.work_order],
    [t('opened'), dateWords(texts, job.opened)], [t('closed'), job.closed && dateWords(texts, job.closed)],
    [t('technician'), technician.name], [t('certificate'), technician.certificate],
    [t('customer'), customer?.name], [t('contact'), customer?.contact], [t('reference'), customer?.reference],
    [t('shop'), shop.name], [t('address'), shop.address], [t('registration'), shop.registration],
  ])
}
