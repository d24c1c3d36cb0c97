import { BECAUSE } from './because.ts'
import { problemSentence } from '../texts/say-problem.ts'
import { REMARK_WORDS } from '../texts/remark-words.ts'
import { say, sayAgain } from '../texts/say.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { withPlainSigns } from '../texts/plain-signs.ts'
import { guessEngine } from './draft-job.ts'
import { draftRecording, isTrace, secondariesOf } from './draft-recording.ts'
import type { DraftedFile } from './drafted.ts'
import { NO_FACTS } from './facts.ts'
import { drawColumn, MOST_DRAWN, stretchOf, type Drawable } from './draw-columns.ts'
import type { Because, Peeked, PeekedColumn } from './peeked.ts'
import { surenessWord } from './sureness.ts'

/** How a look is shown: room across, and whether only plain ASCII signs may be used. */
export interface Shown {
  width: number
  plain: boolean
}

const DRAWN_LINES = 5
const INDENT = '  '
const MIB = 2 ** 20

/** A look at a file in lines of text. */
export function sayPeek(
  texts: Texts,
  { peeked, drawable }: { peeked: Peeked; drawable: Drawable },
  shown: Shown,
): string[] {
  const lines = [
    ...fileLines(texts, peeked),
    '',
    ...peeked.columns.filter(({ role }) => role !== 'frame').flatMap((column) => columnLines(texts, column)),
    ...drawing({ peeked, drawable }, shown),
    ...makes(texts, peeked),
    ...peeked.problems.map(
      (p) => `${say(texts, SEVERITIES[p.severity])} ${problemSentence(texts, p)} [${p.code}]`,
    ),
  ]
  return shown.plain ? lines.map(inAscii) : lines
}

/** Lines of a draft that depend on more than the file's contents. */
const OF_JOB = /^\s*(?:- file|taken):/

/** What a new job would say of the file, as it would be written; that it would make nothing of it where no column is one to judge by. */
function makes(texts: Texts, peeked: Peeked): string[] {
  const file: DraftedFile = { file: peeked.file, taken: new Date(0).toISOString(), takenFrom: 'file', peeked }
  if (secondariesOf(file).length === 0 && !isTrace(file)) return [say(texts, 'peek.makes.nothing')]
  const lines = draftRecording(file, { engine: guessEngine([file], NO_FACTS), stages: undefined })
  return [
    say(texts, isTrace(file) ? 'peek.makes.trace' : 'peek.makes.capture'),
    ...lines.filter(({ text }) => !OF_JOB.test(text)).map(({ text }) => text.slice(INDENT.length)),
  ]
}

const SEVERITIES = { refuse: 'peek.refuse', warn: 'peek.warn' } as const
const ROLES = {
  secondary: 'peek.role.secondary',
  sync: 'peek.role.sync',
  'primary-voltage': 'peek.role.primary-voltage',
  'primary-current': 'peek.role.primary-current',
  speed: 'peek.role.speed',
  time: 'peek.role.time',
  counter: 'peek.role.counter',
  words: 'peek.role.words',
  frame: 'peek.role.frame',
  unknown: 'peek.role.unknown',
} as const
const SURENESS = { sure: 'peek.sure.sure', likely: 'peek.sure.likely', unsure: 'peek.sure.unsure' } as const
const BITS = { range: 'peek.bits.range', used: 'peek.bits.used' } as const
const POLARITY = { positive: 'peek.polarity.positive', negative: 'peek.polarity.negative' } as const

function fileLines(texts: Texts, p: Peeked): string[] {
  const { dialect, clock } = p
  const separator = dialect.columns === 1 ? 'peek.separator.none' : SEPARATORS[dialect.separator]!
  return [
    say(texts, p.whole ? 'peek.file.whole' : 'peek.file.part', {
      file: p.file,
      size: mib(p.fileBytes),
      text: mib(p.textBytes),
      packed: say(texts, p.gzip ? 'peek.packed' : 'peek.plain'),
    }),
    say(texts, 'peek.dialect', {
      separator: say(texts, separator),
      decimal: dialect.decimal,
      line: dialect.dataLine,
      encoding: dialect.encoding,
    }),
    say(texts, 'peek.evidence', { evidence: dialect.evidence.join('; ') }),
    ...(p.overRange.length === 0 ? [] : [say(texts, 'peek.over-range', { words: p.overRange.join(', ') })]),
    p.rowsEstimated === null
      ? say(texts, 'peek.rows', { rows: p.rows })
      : say(texts, 'peek.rows-part', { rows: p.rows, all: p.rowsEstimated }),
    clock === null
      ? say(texts, 'peek.no-clock')
      : say(texts, clock.even ? 'peek.clock' : 'peek.clock-uneven', {
          rate: withUnit(1 / clock.sampleS, 'S/s'),
          duration: withUnit(clock.durationS, 's'),
        }),
    ...(clock?.from === 'preamble' && p.preamble.rate
      ? [
          say(texts, 'peek.clock-preamble', {
            line: p.preamble.rate.line,
            text: { words: p.preamble.rate.text },
          }),
        ]
      : []),
    ...(clock !== null && clock.unit !== null && !clock.unitWritten
      ? [say(texts, 'peek.time-unit-guessed', { unit: clock.unit })]
      : []),
  ]
}

const SEPARATORS: Readonly<Record<string, WordKey>> = {
  ',': 'peek.separator.comma',
  ';': 'peek.separator.semicolon',
  '\t': 'peek.separator.tab',
  ' ': 'peek.separator.blank',
}
const mib = (bytes: number): string =>
  bytes < MIB / 10 ? `${(bytes / 1024).toFixed(1)} KiB` : `${(bytes / MIB).toFixed(1)} MiB`

/** Four digits, with a prefix for thousands where one is usual. */
function withUnit(value: number, unit: string): string {
  const [divisor, prefix] = unit !== 'S/s' || value < 1000 ? [1, ''] : value < 1e6 ? [1e3, 'k'] : [1e6, 'M']
  return `${digits(value / divisor)} ${prefix}${unit}`.trimEnd()
}
const digits = (value: number): string => String(Number(value.toPrecision(4)))

function columnLines(texts: Texts, c: PeekedColumn): string[] {
  const named = c.unit === null || c.name.toLowerCase().includes(c.unit.toLowerCase())
  const name = named ? c.name : `${c.name} (${c.unit})`
  const role = say(texts, ROLES[c.role])
  const sure = ['time', 'counter', 'words', 'frame', 'unknown'].includes(c.role)
    ? role
    : `${role}, ${say(texts, SURENESS[surenessWord(c.sureness)], { percent: 100 * c.sureness })}`
  const unit = c.unit ?? ''
  const about = [
    ...(c.low === null || c.high === null
      ? []
      : [say(texts, 'peek.range', { low: withUnit(c.low, ''), high: withUnit(c.high, unit) })]),
    ...(c.bits === null || c.quantum === null
      ? []
      : [
          say(texts, BITS[c.bits.of], {
            bits: digits(Math.round(c.bits.value * 10) / 10),
            step: withUnit(c.quantum, unit),
          }),
        ]),
    ...(c.clippedSamples > 0 ? [say(texts, 'peek.clipped', { count: c.clippedSamples })] : []),
  ]
  const because = c.because.map((b) => sayBecause(texts, b))
  return [
    say(texts, 'peek.column', { number: c.number, name, role: sure }),
    ...(c.frames > 1
      ? [`${INDENT}${say(texts, 'peek.frames', { count: c.frames, to: c.number + c.frames - 1 })}`]
      : []),
    ...(because.length > 0
      ? [`${INDENT}${say(texts, 'peek.because', { reasons: because.join('; ') })}`]
      : []),
    ...(about.length > 0 ? [`${INDENT}${about.join('; ')}`] : []),
    ...eventLines(texts, c),
  ]
}

const sayBecause = (texts: Texts, { code, args }: Because): string =>
  sayAgain(texts, { key: BECAUSE[code], args })

function eventLines(texts: Texts, { events, pulses, unit }: PeekedColumn): string[] {
  if (pulses)
    return [`${INDENT}${say(texts, 'peek.pulses', { count: pulses.count, rpm: 120 * pulses.perS })}`]
  if (!events) return []
  return [
    say(texts, 'peek.events', {
      count: events.count,
      perS: events.perS,
      polarity: say(texts, POLARITY[events.polarity]),
      kv: events.firingKv,
    }),
    ...(events.scale === 1 ? [] : [say(texts, 'peek.scale', { scale: events.scale, unit: unit ?? 'kV' })]),
    ...(events.perPulse
      ? [say(texts, 'peek.per-pulse', { count: events.perPulse.count, percent: 100 * events.perPulse.share })]
      : []),
    ...events.remarks.map(
      (r) => `${sayAgain(texts, { key: REMARK_WORDS[r.code].says, args: r.args })} [${r.code}]`,
    ),
  ].map((line) => INDENT + line)
}

function drawing(
  { peeked, drawable }: { peeked: Peeked; drawable: Drawable },
  { width, plain }: Shown,
): string[] {
  const stretch = stretchOf(drawable)
  const room = { width: Math.max(20, width - 2 * INDENT.length), height: DRAWN_LINES }
  const { sampleS } = drawable
  const span =
    sampleS === undefined
      ? ''
      : `, ${withUnit(stretch.from * sampleS, 's')} ... ${withUnit(stretch.to * sampleS, 's')}`
  return drawable.columns
    .slice(0, MOST_DRAWN)
    .flatMap(({ index, data }) => [
      '',
      `${peeked.columns[index]!.name}${span}`,
      ...drawColumn(data, stretch, { room, plain }).map((line) => `${INDENT}${line}`.trimEnd()),
    ])
    .concat('')
}

/** Signs beyond ASCII as near ones, or as their code. */
const inAscii = (line: string): string =>
  withPlainSigns(line)
    .replaceAll('°', ' deg')
    .replace(/[^\x20-\x7e]/gu, (c) => `\\u{${c.codePointAt(0)!.toString(16)}}`)
