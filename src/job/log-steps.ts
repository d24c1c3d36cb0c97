/** Steps of test-log.csv; what each is, is declared in test-log/steps/, one file a step. */
export const STEPS = [
  'spray',
  'cap',
  'uncap',
  'smoke',
  'trim',
  'gas',
  'fuel-pressure',
  'fuel-sample',
  'vacuum',
  'back-pressure',
  'compression',
  'leak-down',
  'power-drop',
  'code',
  'airflow',
  'air-meter',
  'oxygen-sensor',
  'coolant-sensor',
  'exhaust-joints',
  'command',
  'timing',
  'secondary-resistance',
  'primary-resistance',
  'cap-and-rotor',
  'plugs',
  'injector-balance',
  'swap',
  'repair',
  'photo',
  'note',
] as const
export type Step = (typeof STEPS)[number]

/** Columns every test log has. */
export const REQUIRED_COLUMNS = ['at', 'step'] as const

/** Columns with a meaning; any other is kept and shown as a note. */
export const KNOWN_COLUMNS = [
  ...REQUIRED_COLUMNS,
  'place',
  'stage',
  'condition',
  'reading',
  'value',
  'unit',
  'expected_low',
  'expected_high',
  'trace',
  'from_s',
  'to_s',
  'outcome',
  'note',
] as const
export type LogColumn = (typeof KNOWN_COLUMNS)[number]
