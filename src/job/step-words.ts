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
  ...steps(
    'spray',
    'spr\u00fchtest, spr\u00fchen, test au spray, pulv\u00e9risation, pulverizaci\u00f3n, prueba de spray',
  ),
  ...steps('smoke', 'rauch, rauchtest, nebeltest, fum\u00e9e, test de fum\u00e9e, humo, prueba de humo'),
  ...steps('trim', 'gemischkorrektur, correction de richesse, correcci\u00f3n de mezcla'),
  ...steps(
    'gas',
    'abgas, abgastest, gaz, gaz d\u2019\u00e9chappement, gaz d\u0027\u00e9chappement, gases de escape',
  ),
  ...steps(
    'fuel-pressure',
    'kraftstoffdruck, pression carburant, pression de carburant, presi\u00f3n de combustible',
  ),
  ...steps('vacuum', 'unterdruck, saugrohrdruck, d\u00e9pression, vac\u00edo'),
  ...steps('back-pressure', 'abgasgegendruck, gegendruck, contre pression, contrapresi\u00f3n'),
  ...steps('compression', 'kompression, kompressionsdruck, taux de compression, compresi\u00f3n'),
  ...steps(
    'leak-down',
    'druckverlust, druckverlusttest, test de fuite, p\u00e9rdida de compresi\u00f3n, prueba de fugas',
  ),
  ...steps(
    'code',
    'fehlercode, fehlerspeicher, code d\u00e9faut, codes d\u00e9faut, c\u00f3digo, c\u00f3digos, c\u00f3digo de falla',
  ),
  ...steps('repair', 'reparatur, repariert, r\u00e9paration, r\u00e9par\u00e9, reparaci\u00f3n, reparado'),
  ...steps('swap', 'tausch, getauscht, permutation, intercambio'),
  ...steps('plugs', 'kerzen, z\u00fcndkerzen, bougies, buj\u00edas'),
  ...steps('note', 'notiz, bemerkung, remarque, nota'),
  ...steps('photo', 'foto, bild'),
}

/** The names of one step in other languages, parted by commas. */
function steps(step: Step, names: string): Record<string, Step> {
  return Object.fromEntries(names.split(', ').map((name) => [name, step]))
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
