import { STEPS, type Step } from './log-steps.ts'

/** What steps are called in the trade beside the name they have in the log, small letters and blanks. */
const CALLED: Readonly<Record<string, Step>> = {
  sprayed: 'spray',
  'spray test': 'spray',
  'propane test': 'spray',
  capped: 'cap',
  uncapped: 'uncap',
  'smoke test': 'smoke',
  smoked: 'smoke',
  trims: 'trim',
  'fuel trim': 'trim',
  'fuel trims': 'trim',
  gases: 'gas',
  'exhaust gas': 'gas',
  'gas analysis': 'gas',
  'rail pressure': 'fuel-pressure',
  'manifold vacuum': 'vacuum',
  'exhaust back pressure': 'back-pressure',
  backpressure: 'back-pressure',
  comp: 'compression',
  'compression test': 'compression',
  'cranking compression': 'compression',
  leakdown: 'leak-down',
  'leakdown test': 'leak-down',
  'cylinder leakage': 'leak-down',
  'power balance': 'power-drop',
  'cylinder balance': 'power-drop',
  'balance test': 'power-drop',
  codes: 'code',
  dtc: 'code',
  dtcs: 'code',
  'trouble code': 'code',
  'fault code': 'code',
  maf: 'airflow',
  'air flow': 'airflow',
  'mass airflow': 'airflow',
  'o2 sensor': 'oxygen-sensor',
  lambda: 'oxygen-sensor',
  'spark plugs': 'plugs',
  'plug reading': 'plugs',
  'coil resistance': 'primary-resistance',
  'lead resistance': 'secondary-resistance',
  distributor: 'cap-and-rotor',
  'injector flow': 'injector-balance',
  swapped: 'swap',
  repaired: 'repair',
  fixed: 'repair',
  picture: 'photo',
  remark: 'note',
}

const plain = (word: string): string =>
  word
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')

const KNOWN = new Map<string, Step>([
  ...Object.entries(CALLED),
  ...STEPS.map((step): [string, Step] => [plain(step), step]),
])

/** The step a word or two mean, however they are spelt; undefined where they mean none. */
export const stepMeant = (word: string): Step | undefined => KNOWN.get(plain(word))

/** All names of steps, for a word that is near one: each with the step it means. */
export const STEP_NAMES: ReadonlyMap<string, Step> = KNOWN
