import { expect, test } from 'vitest'
import type { Fact } from '../../../src/test-log/fact.ts'
import { readLog } from '../../support/test-log.ts'

const HEAD =
  'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note'
const AT = '2026-03-04T09:00:00Z'
type Part = Extract<Fact, { kind: 'part' }>
/** Facts of rows of one moment: `evidence@cylinders`. */
function facts(...rows: readonly string[]): string[] {
  const { tests, problems } = readLog([HEAD, ...rows.map((row) => `${AT},${row}`)].join('\n'))
  if (problems.some((p) => p.severity === 'refuse')) throw new Error(JSON.stringify(problems))
  return tests
    .flatMap((t) => t.facts ?? [])
    .map((f) => `${(f as Part).evidence}@${((f as Part).cylinders ?? []).join('+')}`)
}

/** Cells from the reading on: reading, value, unit, low, high, trace, from, to, outcome, note. */
const of = (step: string, ...cells: readonly (string | number)[]): string =>
  [step, '', '', '', ...cells].join(',')
const said = (step: string, reading: string, outcome: string): string =>
  of(step, reading, '', '', '', '', '', '', '', outcome, '')
const each = (step: string, unit: string, values: readonly number[]): string[] =>
  values.map((v, i) => of(step, `cylinder ${i + 1}`, v, unit, '', '', '', '', '', '', ''))
const swapped = (place: string, outcome: string): string =>
  ['swap', place, '', '', '', '', '', '', '', '', '', '', outcome, ''].join(',')

/** What the rows mean; common practice, no source. */
test.each<[string, readonly string[], readonly string[]]>([
  [
    'a lead three times its fellows',
    each('secondary-resistance', 'kohm', [6, 7, 31, 8]),
    ['secondary-resistance-in-order@1+2+4', 'secondary-resistance-high@3'],
  ],
  [
    'leads that differ with their length',
    each('secondary-resistance', 'kohm', [4, 7, 9, 11]),
    ['secondary-resistance-in-order@1+2+3+4'],
  ],
  [
    'a lead open by word',
    [said('secondary-resistance', 'cylinder 4', 'open circuit')],
    ['secondary-resistance-high@4'],
  ],
  [
    'a lead against the maker’s limits',
    [of('secondary-resistance', 'cylinder 2', 40, 'kohm', 5, 20, '', '', '', '', '')],
    ['secondary-resistance-high@2'],
  ],
  [
    'one lead alone, without limits, says nothing',
    [of('secondary-resistance', 'cylinder 2', 40, 'kohm', '', '', '', '', '', '', '')],
    [],
  ],
  [
    'a primary out of limits',
    [of('primary-resistance', 'coil', 0.2, 'ohm', 0.4, 0.8, '', '', '', '', '')],
    ['primary-resistance-off@'],
  ],
  ['a wet plug', [said('plugs', 'cylinder 4', 'black and wet')], ['plug-seen-fouled@4']],
  ['worn plugs as a set', [said('plugs', '', 'worn')], ['plug-seen-worn@']],
  [
    'a gap out of limits',
    [of('plugs', 'cylinder 1', 1.7, 'mm', 1, 1.2, '', '', '', '', '')],
    ['plug-seen-worn@1'],
  ],
  ['plugs that are not worn', [said('plugs', 'cylinder 1', 'not worn')], ['plug-seen-in-order@1']],
  [
    'an injector that drops less pressure',
    each('injector-balance', 'kPa', [20, 21, 14, 20]),
    ['injectors-even@1+2+4', 'injector-passes-less@3'],
  ],
  [
    'an injector that drops more',
    each('injector-balance', 'psi', [3, 3.1, 3, 4]),
    ['injectors-even@1+2+3', 'injector-passes-more@4'],
  ],
  ['injectors alike', each('injector-balance', 'ml', [50, 52, 49, 51]), ['injectors-even@1+2+3+4']],
  ['a coil the fault went with', [swapped('coil 3 to 1', 'misfire moved')], ['swap-coil-followed@3']],
  ['a coil in German', [swapped('Zündspule 3 gegen 1', 'wandert mit')], ['swap-coil-followed@3']],
  ['an injector the fault stayed without', [swapped('inj 2 to 4', 'stays')], ['swap-injector-stayed@2']],
  ['a plug lead is a lead', [swapped('plug lead 2 to 3', 'follows')], ['swap-lead-followed@2']],
  [
    'a leaking valve',
    [of('leak-down', 'cylinder 3', 45, '%', '', '', '', '', '', 'exhaust', '')],
    ['leak-down-high@3'],
  ],
  ['tight cylinders', each('leak-down', '%', [8, 10, 9, 7]), ['leak-down-in-order@1+2+3+4']],
  ['marks out', [said('timing', '', 'two teeth out')], ['timing-out@']],
  ['marks right', [said('timing', 'valve', 'marks line up')], ['timing-in-order@']],
  [
    'ignition timing weighs for no listed cause',
    [of('timing', 'ignition', 2, 'deg', 8, 12, '', '', '', '', '')],
    [],
  ],
  ['a purge valve that passes', [said('command', 'purge', 'leaks while shut')], ['purge-passes-shut@']],
  ['a purge valve that shuts', [said('command', 'purge', 'shuts')], ['purge-shuts@']],
  ['a recirculation valve stuck open', [said('command', 'EGR', 'stuck open')], ['egr-passes-shut@']],
  ['an idle valve that does nothing', [said('command', 'idle-valve', 'no response')], ['idle-valve-stuck@']],
  ['an idle valve that follows', [said('command', 'idle-valve', 'rpm rose')], ['idle-valve-moves@']],
  [
    'E0 with 18 % ethanol',
    [of('fuel-sample', 'ethanol', 18, '%', '', '', '', '', '', '', '')],
    ['fuel-wrong@'],
  ],
  ['water in the fuel', [said('fuel-sample', '', 'water')], ['fuel-wrong@']],
  [
    'a blocked catalyst',
    [of('back-pressure', 'raised', 6, 'psi', '', '', '', '', '', '', '')],
    ['back-pressure-high@'],
  ],
  [
    'a free exhaust',
    [of('back-pressure', 'raised', 0.5, 'psi', '', '', '', '', '', '', '')],
    ['back-pressure-in-order@'],
  ],
  [
    'an exhaust free at idle says nothing of one under load',
    [of('back-pressure', 'idle', 0.5, 'psi', '', '', '', '', '', '', '')],
    [],
  ],
  [
    'a cylinder that gives nothing',
    each('power-drop', 'rpm', [90, 85, 10, 95]),
    ['power-drop-even@1+2+4', 'power-drop-weak@3'],
  ],
  ['by word', [said('power-drop', 'cylinder 3', 'no drop')], ['power-drop-weak@3']],
  ['a cracked cap', [said('cap-and-rotor', '', 'hairline crack')], ['cap-rotor-worn@']],
  [
    'a coolant sensor 40 degrees below the thermometer beside it',
    [
      of('coolant-sensor', 'coolant', 45, '°C', '', '', '', '', '', '', ''),
      of('coolant-sensor', 'reference', 185, '°F', '', '', '', '', '', '', ''),
    ],
    ['coolant-reads-cold@'],
  ],
  [
    'a coolant sensor that agrees with the air of the morning',
    [
      of('coolant-sensor', 'coolant', 11, 'C', '', '', '', '', '', '', ''),
      of('coolant-sensor', 'reference', 9, 'C', '', '', '', '', '', '', ''),
    ],
    ['coolant-reads-right@'],
  ],
  [
    'coolant at what a wire off reads',
    [of('coolant-sensor', 'coolant', -40, '°C', '', '', '', '', '', '', '')],
    ['coolant-reads-cold@'],
  ],
  [
    'coolant hotter than any engine',
    [of('coolant-sensor', 'coolant', 141, '°C', '', '', '', '', '', '', '')],
    ['coolant-reads-hot@'],
  ],
  [
    'coolant alone says nothing: nobody knows how warm the engine was',
    [of('coolant-sensor', 'coolant', 25, '°C', '', '', '', '', '', '', '')],
    [],
  ],
  ['a coolant sensor by word', [said('coolant-sensor', '', 'reads too cold')], ['coolant-reads-cold@']],
  ['in German', [said('coolant-sensor', '', 'zu kalt')], ['coolant-reads-cold@']],
  ['a sensor that follows', [said('oxygen-sensor', '', 'follows')], ['oxygen-sensor-follows@']],
  [
    'a sensor that does not',
    [said('oxygen-sensor', 'bank 2', 'does not follow')],
    ['oxygen-sensor-misleads@'],
  ],
  ['an exhaust joint that blows', [said('exhaust-joints', '', 'leak')], ['exhaust-joint-leaks@']],
  ['tight joints', [said('exhaust-joints', '', 'no leak')], ['exhaust-joints-tight@']],
  [
    'an air meter that counts too little',
    [of('air-meter', 'idle', 2.1, 'g/s', 2.8, 4.5, '', '', '', '', '')],
    ['air-meter-counts-low@'],
  ],
])('%s', (_, rows, expected) => expect(facts(...rows).toSorted()).toEqual(expected.toSorted()))

test.each(['none', 'none stored', 'No codes', 'keine', 'aucun', 'ninguno'])(
  'codes read again: %s',
  (words) => {
    const { tests } = readLog(`${HEAD}\n${AT},code,,after,,${words}`)
    expect(tests[0]!.facts).toEqual([{ kind: 'codes-none', stage: 'after', sure: true }])
    expect(tests[0]!.says.map((s) => s.key)).toEqual(['tests.code.none'])
  },
)
