import type { Job } from '../../job/schema.ts'
import { verdictWord } from '../../charts/words.ts'
import type { CylinderRecord, Result } from '../../records/result.ts'
import type { WordKey } from '../../texts/messages.ts'
import { say, sayer, wordOf } from '../../texts/say.ts'
import { beside } from '../blocks/beside.ts'
import { REPAIR_WORDS } from '../../verdicts/verdict-words.ts'
import type { Block } from '../blocks/block.ts'
import { heading } from '../blocks/heading.ts'
import { keyValues } from '../blocks/key-values.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { stack } from '../blocks/stack.ts'
import { table, type Cell } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { verdictSign } from './verdict-sign.ts'
import {
  dateWords,
  figureLine,
  odometerWords,
  pair,
  quantity,
  series,
  stated,
  vehicleWords,
} from './words.ts'

/** Complaint, cause and correction as a claim needs them: identity of vehicle, shop and customer, work in the log, and the proof. */
export function complaintCauseCorrection(input: PageInput): Section {
  const { result, texts } = input
  const t = sayer(texts)
  const { job, repair, conclusion } = result
  const worked = conclusion.repair.why !== 'none'
  return {
    title: t('report.ccc.title'),
    level: 2,
    newPage: true,
    blocks: [
      keyValues(
        stated(texts, [
          [t('report.ccc.complaint'), job.complaint],
          [t('report.ccc.cause'), heldAgainst(input, 'cause')],
          [t('report.ccc.correction'), heldAgainst(input, 'correction')],
          [t('report.ccc.work'), repairsWords(input) || say(texts, 'report.ccc.no-repair')],
          [
            t('report.ccc.as-found'),
            series(
              texts,
              conclusion.as_found.says.map(({ text }) => text),
            ),
          ],
          [
            t('report.ccc.after'),
            worked
              ? series(
                  texts,
                  conclusion.now.says.map(({ text }) => text),
                )
              : null,
          ],
          [
            t('report.ccc.proof'),
            [repair.says, ...conclusion.repair.remarks].map(({ text }) => text).join(' '),
          ],
        ]),
        { nameShare: 0.2 },
      ),
      paragraph(t('report.ccc.supplied'), { color: 'quiet' }),
      ...proofTable(input),
      beside([
        stack([heading(3, t('report.ccc.vehicle')), keyValues(vehicleFields(result, texts))]),
        stack([heading(3, t('report.ccc.job')), keyValues(jobFields(result, texts))]),
      ]),
    ],
  }
}

const STANDS = {
  agrees: 'report.stated.agrees',
  'not tested': 'report.stated.not-tested',
  contradicted: 'report.stated.contradicted',
} as const satisfies Record<Result['conclusion']['stated'][number]['stands'], WordKey>

/** What the technician states, in their words, and what the evidence says of it. */
function heldAgainst({ result, texts }: PageInput, what: 'cause' | 'correction'): string | null {
  const stated = result.conclusion.stated.find((s) => s.what === what)
  return stated
    ? say(texts, 'report.stated.held', { words: stated.words, stands: say(texts, STANDS[stated.stands]) })
    : null
}

/** Every repair of the log in the technician's words, parts included, with its day. */
function repairsWords({ result, texts }: PageInput): string {
  return result.tests
    .filter(({ step }) => step === 'repair')
    .map(({ at, place, note, mark }) =>
      say(texts, 'report.ccc.repair', { date: dateWords(texts, at), work: pair(texts, place, note), mark }),
    )
    .join(' ')
}

/** The cylinders that stood out, as found and after: verdict, late rise and where the figure is from. */
function proofTable({ result, texts }: PageInput): Block[] {
  const t = sayer(texts)
  const odd = result.repair.cylinders.filter(({ before, after }) => before !== 'level' || after !== 'level')
  if (odd.length === 0) return []
  const cells = (stage: 'before' | 'after', cylinder: number, verdict: string): Cell[] => {
    const record = result.cylinders.find(
      (c) => c.stage === stage && c.cylinder === cylinder && c.verdict === verdict,
    )
    const word = verdict as CylinderRecord['verdict']
    return [
      {
        text: [`${verdictSign(word)}\u00a0${verdictWord(texts, word)}`, record?.mark]
          .filter(Boolean)
          .join('\u00a0\u00a0'),
      },
      figureLine(texts, record?.figures['late_rise_pct']),
    ]
  }
  const rise = say(texts, 'report.column.late-rise-pct')
  return [
    table({
      caption: t('report.ccc.evidence'),
      columns: [
        { title: say(texts, 'report.column.cylinder'), grow: 0 },
        { title: t('report.ccc.as-found'), grow: 1 },
        { title: rise, grow: 1 },
        { title: t('report.ccc.after'), grow: 1 },
        { title: rise, grow: 1 },
        { title: say(texts, 'report.before-after.outcome'), grow: 1 },
      ],
      rows: odd.map((c) => [
        String(c.cylinder),
        ...cells('before', c.cylinder, c.before),
        ...cells('after', c.cylinder, c.after),
        say(texts, REPAIR_WORDS[c.verdict]),
      ]),
    }),
  ]
}

type Texts = PageInput['texts']

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

function vehicleFields({ job: { vehicle, engine } }: Result, texts: Texts) {
  const t = sayer(texts)
  return stated(texts, [
    [t('report.ccc.make'), vehicleWords(vehicle)],
    [t('report.ccc.vin'), vehicle.vin],
    [t('report.ccc.vin-check'), say(texts, VIN_CHECKS[vehicle.vin_check])],
    [t('report.ccc.plate'), vehicle.plate],
    [t('report.ccc.unit'), vehicle.unit_number],
    [t('report.ccc.odometer'), vehicle.odometer && odometerWords(texts, vehicle.odometer)],
    [
      t('report.ccc.engine'),
      say(texts, 'report.ccc.engine-words', {
        cylinders: engine.cylinders,
        strokes: engine.strokes,
        fuel: engine.fuel,
      }),
    ],
    [
      t('report.ccc.displacement'),
      engine.displacement_l === null
        ? null
        : quantity(texts, engine.displacement_l, { unit: 'l', decimals: 1 }),
    ],
    [t('report.ccc.ignition'), wordOf(texts, IGNITIONS, engine.ignition)],
    [t('report.ccc.firing-order'), engine.firing_order.join('-')],
    ...Object.entries(engine.banks ?? {}).map(
      ([bank, cylinders]) => [say(texts, 'report.ccc.bank', { bank }), cylinders.join(', ')] as const,
    ),
  ])
}

function jobFields({ job }: Result, texts: Texts) {
  const t = sayer(texts)
  const { shop, technician, customer } = job
  return stated(texts, [
    [say(texts, 'report.work-order'), job.work_order],
    [t('report.ccc.opened'), dateWords(texts, job.opened)],
    [t('report.ccc.closed'), job.closed && dateWords(texts, job.closed)],
    [t('report.ccc.technician'), technician.name],
    [t('report.ccc.certificate'), technician.certificate],
    [t('report.ccc.customer'), customer?.name],
    [t('report.ccc.contact'), customer?.contact],
    [t('report.ccc.reference'), customer?.reference],
    [t('report.ccc.shop'), shop.name],
    [t('report.ccc.address'), shop.address],
    [t('report.ccc.registration'), shop.registration],
  ])
}
