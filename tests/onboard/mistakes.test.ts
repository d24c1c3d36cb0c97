import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkJob } from '../../src/chain/check-job.ts'
import { usageWords } from '../../src/cli/usage-words.ts'
import { captureText } from '../../src/demo/capture-file.ts'
import { plainStyle } from '../../src/demo/scenario.ts'
import { distributorCapture } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { readFacts, NO_FACTS } from '../../src/peek/facts.ts'
import { readSpoken } from '../../src/test-log/spoken.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { say } from '../../src/texts/say.ts'
import { sayProblem } from '../../src/texts/say-problem.ts'

/**
 * Mistakes of a first day, as they were made with nothing known but the README, one a row: what was written, and what is
 * said to it; `in order` where it is read as it was meant. Shop, vehicle and fault are invented.
 */

const texts = loadTexts('en')
const JOB = `format: 1
work_order: "KB-26-0417"
opened: 2026-03-04
shop: { name: Kettlebrook Demo Garage }
technician: { name: T. Sample }
vehicle: { year: 2009, make: Demo, model: Carrier }
engine:
  cylinders: 4
  firing_order: [1, 3, 4, 2]
  ignition: distributor
  fuel: E10
complaint: Shakes at a warm idle
instrument: { voltage_uncertainty_percent: 5 }
captures:
  - file: captures/idle.csv
    stage: before
    condition: idle
    engine: warm
    taken: 2026-03-04T09:12:00-05:00
    time: { sample_rate_hz: 500000 }
    channels:
      - { column: secondary_kv, carries: secondary, cylinders: all, unit: kV }
      - { column: sync_v, carries: sync, cylinder: 1, unit: V }
`
const HEAD =
  'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note'
const AT = '2026-03-04T09:20:00-05:00'
const rows = (...cells: string[]) => [HEAD, ...cells.map((row) => `${AT},${row}`), ''].join('\n')
const SPRAY = 'spray,runner 2,,,,,,,,,,,response,'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-mistakes-'))
  mkdirSync(join(folder, 'captures'))
  const capture = simulateCapture(distributorCapture({ cylinders: 4, seed: 3, durationS: 0.8 }))
  const style = { ...plainStyle('secondary_kv', 'sync_v'), time: undefined }
  writeFileSync(join(folder, 'captures', 'idle.csv'), captureText(capture, style))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function said(job: string, log: string, captures = false): Promise<string[]> {
  writeFileSync(join(folder, 'job.yaml'), job)
  writeFileSync(join(folder, 'test-log.csv'), log)
  return (await checkJob(folder, { captures })).problems.map((p) => sayProblem(texts, p))
}

type Row = readonly [mistake: string, from: string | RegExp, to: string, ...said: readonly string[]]

const inNames = ([mistake, from, to, ...expected]: Row) => ({ mistake, from, to, expected })

const IN_JOB: readonly Row[] = [
  ['the fuel as it is called', 'fuel: E10', 'fuel: petrol', 'job.yaml:11:9: “petrol” is taken for E10.'],
  ['a fuel without a spark', 'fuel: E10', 'fuel: diesel', '“engine.fuel” is “diesel”; known are: E0, E5'],
  ['a fuel that is not there', 'fuel: E10', 'fuel: E15', '“engine.fuel” is “E15”; known are: E0, E5'],
  ['a letter wrong', 'distributor', 'distributer', 'the nearest known word is “distributor”. Known are:'],
  ['the ignition as it is called', 'distributor', 'coil on plug'],
  ['a number in words', 'cylinders: 4', 'cylinders: four'],
  ['a number with its word', 'cylinders: 4', 'cylinders: 4 cyl'],
  ['a number that is none', 'cylinders: 4', 'cylinders: many', 'expected: a whole number from 1 to 16'],
  ['an order with hyphens', '[1, 3, 4, 2]', '1-3-4-2'],
  ['an order without anything', '[1, 3, 4, 2]', '1342'],
  ['an order too short', '[1, 3, 4, 2]', '[1, 3, 4]', 'expected: each cylinder of the engine once'],
  ['miles as they stand on the dial', 'model: Carrier', 'model: Carrier, odometer: 176005 km'],
  [
    'miles with a bare figure',
    'model: Carrier',
    'model: Carrier, odometer: 98123',
    'such as 98123 mi or 176005 km',
  ],
  ['the unit in full', 'model: Carrier', 'model: Carrier, odometer: { value: 98123, unit: miles }'],
  ['capitals', 'stage: before', 'stage: Before'],
  ['a letter short', 'stage: before', 'stage: befor', 'the nearest known word is “before”'],
  ['capitals of a condition', 'condition: idle', 'condition: Idle'],
  ['a local time', '2026-03-04T09:12:00-05:00', '04.03.2026 09:12'],
  ['a date that the job’s own days settle', '2026-03-04T09:12:00-05:00', '3/5/2026 9:12 am'],
  [
    'a date that stays open',
    '2026-03-04T09:12:00-05:00',
    '5/6/2026 9:12 am',
    'can be 2026-05-06T09:12, 2026-06-05T09:12',
  ],
  ['a rate in short', 'sample_rate_hz: 500000', 'sample_rate_hz: 500k'],
  ['a channel’s trade name', 'carries: sync', 'carries: cam'],
  ['a channel misspelt', 'carries: secondary', 'carries: secondry', 'the nearest known word is “secondary”'],
  ['a unit’s capitals', 'unit: kV', 'unit: kv'],
  [
    'a file misspelt',
    'captures/idle.csv',
    'captures/idel.csv',
    'the nearest name there is “captures/idle.csv”',
    'lies in the job folder and is not named',
  ],
  [
    'a path of another system',
    'captures/idle.csv',
    '"captures\\\\idle.csv"',
    'with forward slashes',
    'lies in the job folder',
  ],
  [
    'a key misspelt',
    'complaint:',
    'complain:',
    '“complaint” is missing',
    'The nearest known key there is “complaint”',
  ],
  ['a tab', '  cylinders: 4', '\tcylinders: 4', 'A tab cannot indent; use spaces'],
  ['a colon forgotten', 'fuel: E10', 'fuel E10', 'A key needs a colon and a blank behind it'],
  ['a blank forgotten', 'fuel: E10', 'fuel:E10', 'A colon behind a key needs a blank behind it'],
  ['a share for percent', 'percent: 5', 'percent: 0.05', 'usual are 0.5 … 50 %'],
  ['percent with its sign', 'percent: 5', 'percent: 5 %'],
  ['a year too long', 'year: 2009', 'year: 20009', 'expected: a year such as 2009'],
  ['the sync left out', / {6}- \{ column: sync_v.*\n/, '', 'no sync channel tells them apart'],
  ['a blank in the fuel', 'fuel: E10', 'fuel: E 10'],
  ['a layout for a number', 'cylinders: 4', 'cylinders: I4'],
  ['a year in quotes', 'year: 2009', 'year: "2009"'],
  [
    'a name where keys are asked for',
    'shop: { name: Kettlebrook Demo Garage }',
    'shop: Kettlebrook Demo Garage',
  ],
  [
    'a name with a certificate',
    'technician: { name: T. Sample }',
    'technician: T. Sample, demo certificate 11',
  ],
  ['a rate in the place of the clock', 'time: { sample_rate_hz: 500000 }', 'time: 500 kS/s'],
  ['a pickup that sees All', 'cylinders: all', 'cylinders: All'],
  ['a list of one word', 'cylinders: all', 'cylinders: [all]'],
  ['cylinders from one to the last', 'cylinders: all', 'cylinders: 1-4'],
  ['a unit in full', 'unit: V ', 'unit: volts '],
  ['a stage in words', 'stage: before', 'stage: before repair'],
  ['a stage in German', 'stage: before', 'stage: vorher'],
  ['an engine that is hot', 'engine: warm', 'engine: hot'],
  ['a condition in another form', 'condition: idle', 'condition: idling'],
  ['a condition in French', 'condition: idle', 'condition: ralenti'],
  ['a condition by its figure', 'condition: idle', 'condition: 2500'],
  [
    'a quotation mark left open',
    'complaint: Shakes',
    'complaint: "Shakes',
    'job.yaml:12:12: This cannot be read as YAML: “complaint: "Shakes at a warm idle”. A quotation mark',
  ],
  [
    'a key in capitals',
    'complaint:',
    'Complaint:',
    '“complaint” is missing',
    'The nearest known key there is “complaint”',
  ],
  ['a key of the clock misspelt', 'sample_rate_hz', 'sample_rate', 'or sample_rate_hz alone'],
  ['a month that is none', 'opened: 2026-03-04', 'opened: 2026-13-04', 'a date of the calendar'],
  ['a time of day alone', '2026-03-04T09:12:00-05:00', '09:12', 'a date of the calendar and a time'],
  ['a slash in the work order', 'KB-26-0417', 'KB/26/0417', 'a name a folder can have'],
  ['a short VIN', 'year: 2009', 'vin: 1M8GDM9A', 'does not have the form of a VIN'],
  [
    'an ending twice',
    'captures/idle.csv',
    'captures/idle.csv.csv',
    'the nearest name there is “captures/idle.csv”',
    'lies in the job folder and is not named',
  ],
  ['a column counted from nought', 'column: sync_v', 'column: 0', 'its number from 1 on'],
  ['a direction in words', 'unit: kV', 'unit: kV, polarity: down', 'known are: auto, positive, negative'],
  ['a cylinder the engine has not', 'cylinder: 1,', 'cylinder: 9,', 'expected: 1 … 4'],
  ['pairs without wasted spark', 'fuel: E10', 'fuel: E10\n  pairs: [[1, 4], [2, 3]]', 'pairs only for'],
  ['a dash forgotten', '  - file:', '    file:', 'a list (each entry after a dash)'],
  [
    'closed before it was opened',
    'opened: 2026-03-04',
    'opened: 2026-03-04\nclosed: 2026-03-01',
    '≥ 2026-03-04',
  ],
  ['everything left out', /^[\s\S]*$/, '', '`burnline new` makes one from the captures'],
]

describe('in job.yaml', () => {
  test.each(IN_JOB.map(inNames))('$mistake', async ({ from, to, expected }) => {
    const job = JOB.replace(from, () => to)
    expect(job).not.toBe(JOB)
    const found = await said(job, rows(SPRAY))
    expect(found).toEqual(expected.map((part) => expect.stringContaining(part) as string))
  })
})

const LOGS: readonly (readonly [mistake: string, log: string, ...said: readonly string[]])[] = [
  ['capitals of a step', rows('Spray,runner 2,,,,,,,,,,,response,')],
  [
    'a step misspelt',
    rows('sray,runner 2,,,,,,,,,,,response,'),
    'test-log.csv:2:2: Unknown step “sray”; the nearest known step is “spray”',
  ],
  [
    'a step nobody knows',
    rows('wobble,runner 2,,,,,,,,,,,response,'),
    'Unknown step “wobble”. `burnline log --help`',
  ],
  ['a power balance by its name', rows('power balance,,,,cylinder 1,,,,,,,,weak,')],
  [
    'a word in the place of a figure',
    rows('power balance,,,,cylinder 1,weak,,,,,,,,'),
    'words stand under “outcome”',
    'bears on nothing',
  ],
  ['a code in small letters', rows('code,,,,p302,,,,,,,,,')],
  ['a code that is none', rows('code,,,,P3O2X,,,,,,,,,'), 'a trouble code such as P0171'],
  ['a trim out of this world', rows('trim,,,idle,STFT1,470,%,,,,,,,'), 'usual are -60 … 60 %'],
  [
    'a trim without its bank',
    rows('trim,,,idle,STFT,11,%,,,,,,,'),
    'the nearest known reading is “STFT1”. Known are: STFT1, LTFT1, STFT2, LTFT2',
  ],
  ['a gas that is not logged', rows('gas,,,idle,lambda,1.02,%vol,,,,,,,'), 'known are: CO, CO2'],
  ['a decimal comma', rows('trim,,,idle,STFT1,"11,7",%,,,,,,,')],
  ['a unit forgotten', rows('trim,,,idle,STFT1,11.7,,,,,,,,'), 'Column “unit” is empty'],
  [
    'pressures in kPa that are psi',
    rows('compression,,,,cylinder 1,150,kPa,,,,,,,', 'compression,,,,cylinder 2,145,kPa,,,,,,,'),
    'The highest reading is 150 kPa; an engine that runs has more',
  ],
  [
    '12 psi beside 12 bar',
    rows('compression,,,,cylinder 1,12,bar,,,,,,,', 'compression,,,,cylinder 2,12,psi,,,,,,,'),
    'has readings in bar, psi',
  ],
  ['a cylinder in short', rows('compression,,,,cyl 1,150,psi,,,,,,,')],
  [
    'a cylinder the engine has not',
    rows('compression,,,,cylinder 7,150,psi,,,,,,,'),
    'expected: cylinder 1 … cylinder 4',
  ],
  ['a unit in the plural', rows('compression,,,,cylinder 1,12,Bars,,,,,,,')],
  [
    'a unit nobody knows',
    rows('compression,,,,cylinder 1,12,bra,,,,,,,'),
    'the nearest known word is “bar”. Known are: kPa, psi, bar, inHg',
  ],
  ['inches of mercury in short', rows('vacuum,,,idle,manifold,18,in,,,,,,,')],
  ['more vacuum than there is air', rows('vacuum,,,idle,manifold,60,inHg,,,,,,,'), 'expected: < 29.9 inHg'],
  [
    'a step without its place',
    rows('spray,,,,,,,,,,,,response,'),
    'Column “place” is empty, and the step “spray” needs it',
  ],
  ['one place in two ways', rows(SPRAY, 'smoke,runner2,,,,,,,,,,,leak,')],
  [
    'a slip in a place',
    rows('spray,throttle body,,,,,,,,,,,response,', 'smoke,trottle body,,,,,,,,,,,leak,'),
    'throttle body',
  ],
  [
    'an outcome nobody understands',
    rows('spray,runner 2,,,,,,,,,,,dunno,'),
    'The outcome “dunno” of this row (spray) is not understood',
  ],
  ['no outcome', rows('spray,runner 2,,,,,,,,,,,,'), 'it bears on nothing'],
  [
    'a trace that is not named',
    rows('spray,runner 2,,,,,,,,traces/spray.csv,30,36,response,'),
    '“traces/spray.csv” is not a trace of job.yaml',
  ],
  [
    'a stage misspelt',
    rows('spray,runner 2,aftr,,,,,,,,,,response,'),
    '“stage” is “aftr”; the nearest known word is “after”',
  ],
  ['a time of day alone', `${HEAD}\n9:20,${SPRAY}\n`],
  ['a day with its month first', `${HEAD}\n3/5/2026 9:20 am,${SPRAY}\n`],
  ['semicolons', rows(SPRAY).replaceAll(',', ';')],
  [
    'columns by other names',
    rows(SPRAY).replace('at,step', 'time,test').replace('outcome,note', 'result,remarks'),
  ],
  ['a figure with its unit', rows('compression,,,,cylinder 1,150psi,,,,,,,,')],
  ['a figure with its unit twice', rows('compression,,,,cylinder 1,150 psi,psi,,,,,,,')],
  [
    'a figure with another unit than its own',
    rows('compression,,,,cylinder 1,150 psi,bar,,,,,,,'),
    '“value” holds “150 psi”',
  ],
  ['the unit in the header', `at,step,reading,value (psi)\n${AT},compression,cylinder 1,150\n`],
  ['tabs', rows(SPRAY).replaceAll(',', '\t')],
  ['a line of a spreadsheet’s own', `sep=;\n${rows(SPRAY).replaceAll(',', ';')}`],
  ['a letter O in a code', rows('code,,,,PO302,,,,,,,,,')],
  ['two codes in a cell', rows('code,,,,"P0300, P0302",,,,,,,,,'), 'a trouble code such as P0171'],
  ['a step in German', `Zeit;Prüfung;Ort;Ergebnis\n${AT};Sprühtest;Krümmer 2;Drehzahl steigt\n`],
  [
    'a step in French',
    rows('compression,,,,cylinder 1,150,psi,,,,,,,').replace('compression', 'Compression'),
  ],
  ['a step in Spanish', rows('humo,runner 2,,,,,,,,,,,leak,')],
  ['a unit without its stroke', rows('airflow,,,idle,MAF,3.4,gs,,,,,,,')],
  ['hydrocarbons in percent', rows('gas,,,idle,HC,310,%,,,,,,,'), 'usual are 0 … 3 %vol'],
  ['more leaking than there is', rows('leak-down,,,,cylinder 1,120,%,,,,,,,'), 'usual are 0 … 100 %'],
  ['limits the wrong way round', rows('trim,,,idle,STFT1,11,%,10,-10,,,,,'), 'the lower limit first'],
  ['a pressure below nothing', rows('compression,,,,cylinder 1,-150,psi,,,,,,,'), 'a number, 0 or more'],
  ['no figure to be had', rows('compression,,,,cylinder 1,n/a,psi,,,,,,,'), '“value” holds “n/a”'],
  [
    'place and outcome the wrong way round',
    rows('spray,response,,,,,,,,,,,runner 2,'),
    'The outcome “runner 2”',
  ],
  ['a log nobody has written to', ''],
  ['no header', `${AT},${SPRAY}\n`, 'Put the names in a first row: at, step, place'],
]

describe('in the log', () => {
  test.each(LOGS.map(([mistake, log, ...expected]) => ({ mistake, log, expected })))(
    '$mistake',
    async ({ log, expected }) => {
      expect(await said(JOB, log)).toEqual(expected.map((part) => expect.stringContaining(part) as string))
    },
  )
})

const IN_CAPTURES: readonly Row[] = [
  ['a rate off by ten', '500000', '5000000', 'By the stated rate one cylinder sparks'],
  ['a rate a tenth of what it was', '500000', '50000', 'By the stated rate one cylinder sparks'],
  ['a rate in kHz', '500000', '500', 'At 500 Hz the capture is 800 s long'],
  [
    'two columns taken for each other',
    /column: secondary_kv([\s\S]*)column: sync_v/,
    'column: sync_v$1column: secondary_kv',
    '“sync_v” is given the unit kV; found: V',
    '“secondary_kv” is given the unit V; found: kV',
  ],
  ['a column by half its name', 'column: secondary_kv', 'column: secondary'],
  [
    'a column that is not there',
    'column: secondary_kv',
    'column: kanal',
    'There is no column “kanal”. The columns are: secondary_kv, sync_v',
  ],
  [
    'volts for kilovolts',
    'cylinders: all, unit: kV',
    'cylinders: all, unit: V',
    'is given the unit V; found: kV',
  ],
]

describe('between job.yaml and a capture', () => {
  test.each(IN_CAPTURES.map(inNames))('$mistake', async ({ from, to, expected }) => {
    const found = await said(JOB.replace(from, to), rows(SPRAY), true)
    expect(found).toEqual(expected.map((part) => expect.stringContaining(part) as string))
  })
})

const about = {
  now: '2026-03-04T10:00:00-05:00',
  days: { from: '2026-03-04', to: '2026-04-04', only: '2026-03-04', zone: '-05:00' },
  cylinders: 4,
  repaired: false,
}

test.each([
  ['sprai runner', { kind: 'no-step', found: 'sprai runner' }],
  ['spray runner2 response at 25:00', { kind: 'time-unread', found: '25:00' }],
  ['trim STFT 11 idle', { kind: 'rows', rows: [{ reading: 'STFT', value: '11', condition: 'idle' }] }],
  [
    'compression 150 145 92 150',
    { kind: 'rows', rows: [{ reading: 'cylinder 1', value: '150' }, {}, {}, {}] },
  ],
])('at the car: %s', (line, expected) => expect(readSpoken(line.split(' '), about)).toMatchObject(expected))

test('an answer that is no engine is refused with its word', () => {
  const { refused } = readFacts('V6 wankel', { known: NO_FACTS, free: false })
  expect(refused.map((each) => say(texts, each))).toEqual(['“wankel” is not understood here.'])
})

// What the parser says is in the left column: the words of its own texts.
test.each([
  [
    'Did you mean report?',
    'repot jobs',
    'there is no command “repot”; was report meant? burnline --help lists the commands.',
  ],
  [
    'Unknown argument: frobnicate',
    'frobnicate',
    'there is no command “frobnicate”. burnline --help lists the commands.',
  ],
  [
    'Did you mean new?',
    'my-job',
    '“my-job” is there, but no command goes before it: burnline report my-job, or burnline peek for a capture.',
  ],
  [
    'Unknown argument: langage',
    'report my-job --langage de',
    'there is no option --langage; was --language meant? burnline report --help shows what there is.',
  ],
  ['Unknown argument: b', 'peek a b', '“b” is one word too many. burnline peek --help shows what there is.'],
  [
    'Invalid values:\n  Argument: page, Given: "A5", Choices: "A4", "LETTER"',
    'report my-job --page A5',
    '--page takes A4, LETTER; found "A5"; was A4 meant?',
  ],
  [
    'Not enough non-option arguments: got 0, need at least 1',
    'check',
    'check needs more words. burnline check --help shows which, with examples.',
  ],
])('on the command line: %s', (message, line, expected) => {
  const words = {
    argv: line.split(' '),
    commands: ['report', 'check', 'peek', 'new'],
    options: ['language', 'page', 'out'],
    exists: (path: string) => path === 'my-job',
  }
  expect(usageWords(message, words)).toBe(expected)
})
