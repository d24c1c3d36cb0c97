import type { LimitKey } from '../../limits/keys.ts'
import type { Result } from '../../records/result.ts'
import { formatNumber, unitSign } from '../../texts/format-quantity.ts'
import { say, sayer } from '../../texts/say.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'

type Limit = Result['limits'][number]
type Finding = Result['conclusion']['findings'][number]

/** Limits that decide on each kind of finding. */
const OF_KIND: Readonly<Record<Finding['kind'], readonly LimitKey[]>> = {
  mixture: ['lateRisePct', 'minEvents'],
  circuit: [
    'openNoLineSharePct',
    'externalStartExcessPct',
    'externalEarlyDropExcessPct',
    'externalOwnDropPct',
  ],
  misfire: ['misfireSharePct', 'missingLeastKhz'],
  'firing-voltage': [
    'firingApartKv',
    'firingApartHighPct',
    'firingApartLowPct',
    'firingUsualLowKv',
    'firingUsualHighKv',
  ],
  'burn-time': ['burnApartLongPct', 'burnApartShortPct', 'burnUsualLowMs', 'burnShortMs', 'burnUsualHighMs'],
  oscillation: ['ringApartCycles'],
  compression: ['compressionSharePct', 'gaugeRepeatPct'],
  'fuel-pressure': ['fuelHoldLossPct', 'gaugeReadingPct'],
  trim: ['trimHighPct', 'trimChangePct', 'trimReadingPct'],
  gas: ['lambdaLow', 'lambdaHigh', 'gasLeakO2Pct', 'gasMisfireHcPpm'],
  vacuum: ['idleVacuumLowKpa'],
  leak: ['sprayLevel', 'sprayLeastRpm', 'sprayExcludeRpm'],
  code: [],
  part: [
    'leakDownPct',
    'backPressureIdleKpa',
    'backPressureRaisedKpa',
    'resistanceApartRatio',
    'powerDropSharePct',
  ],
  'idle-speed': ['idleSwingRpm'],
}
const OFF_IDLE: readonly LimitKey[] = ['offIdleBendPct', 'fellowsGapPct']
const OF_REPAIR: readonly LimitKey[] = ['repairLeastShiftPct', 'comparableSpeedPct']
const OF_HISTORY: readonly LimitKey[] = [
  'historyFalseAlarmPct',
  'historyRisePct',
  'historyFiringPct',
  'historyBurnPct',
]
const OF_CAUSES: readonly LimitKey[] = [
  'causeClearPct',
  'causeMarginRatio',
  'weightsOffFactor',
  'clearKeepsFirstPct',
]

/** Limits that decided on what was found out of order, on the repair and on the causes, and those the shop has changed. */
function decisive(result: Result): Limit[] {
  const odd = result.conclusion.findings.filter(({ order }) => order === 'out of order' || order === 'unsure')
  const keys = new Set<string>([
    ...(result.cylinders.length > 0 ? OF_KIND.mixture : []),
    ...(result.captures.some(({ condition }) => condition !== 'idle') ? OFF_IDLE : []),
    ...odd.flatMap(({ kind }) => OF_KIND[kind]),
    ...(result.repair.cylinders.length > 0 ? OF_REPAIR : []),
    ...(result.causes.length > 0 ? OF_CAUSES : []),
    ...(result.history && result.history.changes.length > 0 ? OF_HISTORY : []),
  ])
  return result.limits.filter(({ key, changed }) => changed || keys.has(key))
}

/** The limits that decided, in one table; where each comes from by a letter, since many share an origin. A shop's own are marked. */
export function limits({ result, texts }: PageInput): Section {
  const t = sayer(texts)
  const shown = decisive(result)
  const changed = shown.filter((limit) => limit.changed)
  const origins = [...new Set(shown.map(({ origin }) => origin))]
  const sourceOf = (key: string) => result.sources.find((source) => source.key === key)?.text ?? key
  return {
    title: t('report.limits.title'),
    level: 2,
    blocks: [
      paragraph(
        [
          changed.length === 0
            ? t('report.limits.as-shipped')
            : say(texts, 'report.limits.some-changed', { count: changed.length }),
          t('report.limits.whole', { count: result.limits.length }),
          t('report.limits.origins'),
          ...origins.map((origin, i) => `${letter(i)}\u00a0 ${sourceOf(origin)}`),
        ].join(' '),
        { keepWithNext: true },
      ),
      table({
        caption: t('report.limits.title'),
        dense: true,
        size: 'fine',
        columns: [
          { title: t('report.limits.meaning'), grow: 1 },
          { title: t('report.limits.value'), grow: 0, align: 'right' },
          { title: t('report.limits.origin'), grow: 0 },
        ],
        rows: origins.flatMap((origin, i) =>
          shown
            .filter((limit) => limit.origin === origin)
            .map((limit) => [words(limit, texts), valueOf(limit, texts), letter(i)]),
        ),
      }),
    ],
  }
}

/** "a" for the first origin. */
const letter = (i: number): string => String.fromCodePoint('a'.codePointAt(0)! + i)

/** The limit as it was set, with every decimal it was given. */
const valueOf = ({ value, unit }: Limit, { language }: PageInput['texts']): string =>
  formatNumber(value, String(value).split('.')[1]?.length ?? 0, language) + unitSign(unit, language)

/** What is limited, and the name it is changed by. */
const words = ({ meaning, key, changed }: Limit, texts: PageInput['texts']): string =>
  say(texts, changed ? 'report.limits.entry-changed' : 'report.limits.entry', { meaning, key })
