/** Steps of test-log.csv. */
export const STEPS = [
  'spray',
  'cap',
  'uncap',
  'smoke',
  'trim',
  'gas',
  'fuel-pressure',
  'vacuum',
  'compression',
  'code',
  'airflow',
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
