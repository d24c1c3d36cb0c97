import { partState } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const reader: PartReader<'worn' | 'in order'> = {
  outcomes: partState({
    worn: [
      'worn',
      'burnt',
      'burned',
      'crack*',
      'track*',
      'open',
      'corroded',
      'eroded',
      'pitted',
      'wet',
      'bad',
      'abgebrannt',
      'verbrannt',
      'gerissen',
      'riss',
      'kriechspur*',
      'korrodiert',
      'feucht',
      'offen',
      'use*',
      'brule*',
      'fissur*',
      'fendu*',
      'oxyde*',
      'humide',
      'gastad*',
      'quemad*',
      'agrietad*',
      'rajad*',
      'corroid*',
      'humed*',
    ],
  }),
  states: {
    worn: { says: 'tests.cap-and-rotor.worn', evidence: 'cap-rotor-worn', finding: 'out of limits' },
    'in order': {
      says: 'tests.cap-and-rotor.in-order',
      evidence: 'cap-rotor-in-order',
      finding: 'in limits',
    },
  },
  recorded: 'tests.cap-and-rotor.recorded',
}

/** Distributor cap, rotor and coil lead, looked at and measured. @source shop-practice */
export const capAndRotor: StepKind = {
  title: 'report.step.cap-and-rotor',
  needs: {},
  outcome: partOutcomes(reader, ['worn', 'cracked', 'in order']),
  evidence: ['cap-rotor-worn', 'cap-rotor-in-order'],
  cautions: ['high-voltage', 'moving'],
  read: (group, context) => readParts(group, context, reader),
}
