/**
 * Every problem burnline can report, with the arguments its sentence needs. One line a code.
 * The sentence is `problem.<code>` in templates/texts/*.yaml; it says what was found, what was expected, what to do.
 * A text argument is a fact in no language (a name, a figure, a list of values) or a key `phrase.…` of the texts;
 * an empty one is said as `phrase.none`.
 */
export interface ProblemArgs {
  // files and folders
  'not-a-folder': { path: string }
  /** A file where a job folder is wanted. */
  'file-not-folder': { path: string }
  'missing-file': { path: string; nearest: string }
  'unreadable-file': { path: string; why: string }
  'leaves-folder': { path: string }
  'empty-file': { path: string }
  'empty-job': Record<never, never>
  /** A file of another kind under the name of a text: `why` is a kind of job/foreign-file.ts. */
  'not-text': { path: string; why: string }
  'too-large': { path: string; size: string; limit: string }
  // job.yaml
  'yaml-syntax': { found: string; why: string }
  'not-utf8': { found: string }
  'unknown-key': { key: string; nearest: string }
  'missing-key': { key: string }
  /** A word of a review that is none of the report's. */
  'review-unknown': { key: string; found: string; nearest: string; known: string }
  'wrong-value': { key: string; found: string; expected: string }
  /** A word where only certain ones are known. */
  'unknown-word': { key: string; found: string; nearest: string; known: string }
  'duplicate-entry': { key: string; found: string }
  inconsistent: { key: string; found: string; expected: string }
  /** A list written between brackets, which `add` cannot put lines into. */
  'list-in-one-line': { key: string }
  /** A word that says less than what it is taken for. */
  'taken-as': { found: string; taken: string }
  /** A date of the log that could be two days, with the rows it stands in. */
  'date-open': { found: string; meant: string; count: number }
  /** Sparks of one cylinder a second that the stated rate gives, against the condition. */
  'rate-doubtful': { perS: number; rpm: number; condition: string; usual: string }
  /** Readings of one test in several units, or all of one so low that the unit is in doubt. */
  'units-mixed': { units: string; step: string }
  'unit-doubtful': { found: string; unit: string }
  /** A file named on the command line, and not in a job. */
  'no-such-file': { path: string; nearest: string }
  'vin-check-digit': { vin: string; expected: string }
  'vin-shape': { vin: string }
  'default-uncertainty': { percent: number }
  /** A drafted value that nobody has confirmed. */
  'guess-left': { found: string }
  /** A text that ends at a # without a blank behind it. */
  'text-cut': { found: string; lost: string }
  'word-quotes': { found: string }
  /** A figure that is possible and most unlikely. */
  'unusual-value': { key: string; found: string; usual: string }
  /** A day outside the job's own; opened and closed as in job.yaml. */
  'date-outside': { found: string; opened: string; closed: string }
  'stage-order': { stage: string; taken: string; other: string; when: string }
  'same-contents': { path: string; other: string }
  /** A file that lies in the folder and is named nowhere; told by `check` alone. */
  'file-not-named': { path: string }
  'calibration-overdue': { due: string; taken: string }
  // captures and traces
  'no-data-rows': { path: string }
  'unknown-column': { column: string; nearest: string; columns: string }
  'not-a-number': { column: string; found: string; count: number }
  /** A cell of the time column that holds neither a figure nor a time of day. */
  'not-a-time': { column: string; found: string; count: number }
  'ragged-row': { found: number; expected: number; count: number; text: string }
  'time-backwards': { before: string; after: string; count: number }
  'time-gap': { at: string; length: string; count: number }
  'time-missing': { path: string }
  'ambiguous-dialect': { first: string; second: string }
  'gzip-broken': { why: string }
  'two-sync': { cylinders: string }
  'sync-missing': { channel: string }
  'sync-lost': { why: string; fromS: number; toS: number }
  /** Samples that look like another thing than the job says; roles as in job.yaml. */
  'columns-doubtful': { column: string; carries: string; looks: string }
  'no-events': { channel: string }
  'unsupported-ignition': { why: string }
  'wrong-unit': { column: string; unit: string; expected: string; found: string }
  // captures and traces: decoding
  /** A single line, or the column count of a row, beyond what is read. */
  'line-too-long': { limit: number }
  'too-many-columns': { found: number; limit: number }
  'too-many-rows': { limit: number }
  /** The header once more among the data: two recordings in one file. */
  'header-again': { found: string }
  'header-mismatch': { found: number; expected: number }
  /** One column a frame: a channel with fewer frames than another. */
  'frame-columns': { column: string; found: number; expected: number }
  'empty-cell': { column: string; count: number }
  'out-of-range': { column: string; found: string; count: number }
  /** Heights no ignition makes: a wrong unit or scale. */
  'implausible-voltage': { column: string; found: string; most: string }
  /** Speeds no engine has: a thousands mark taken for a decimal sign, or a wrong unit. */
  'implausible-speed': { column: string; found: string; expected: string }
  /** A rate or length no recording of an engine has: a wrong unit of time or rate. */
  'implausible-clock': { rate: string; length: string; expected: string }
  /** A stated rate beside a time column that says another. */
  'rate-contradicted': { stated: string; column: string; found: string }
  /** Stamps written so coarsely that the rate is not known well. */
  'time-coarse': { digit: string; length: string; percent: number }
  'nul-bytes': { count: number }
  /** The last row has no line end and may be cut off; it is left out. */
  'row-cut-off': { found: string }
  /** Lines above the data that hold figures as rows do, and were taken for remarks. */
  'rows-above': { count: number; found: string }
  /** Line ends of another kind within a line: several rows in one. */
  'line-ends-change': { found: string; expected: string; count: number }
  /** Two-byte text in which a byte is missing or too many: from there on every sign is another. */
  'shifted-bytes': Record<never, never>
  /** Trace rows in which no wanted channel has a figure. */
  'rows-without-figures': { count: number }
  'time-repeat': { at: string; count: number }
  'time-uneven': { step: string; shortest: string; longest: string; count: number }
  'changed-while-read': { path: string }
  /** Problems beyond the number shown. */
  'more-problems': { count: number }
  // test log
  'log-header-missing': { found: string }
  'near-column': { column: string; nearest: string }
  'csv-quotes': { found: string }
  'unknown-step': { found: string; nearest: string }
  'unknown-reading': { found: string; nearest: string; known: string; step: string }
  'missing-cell': { column: string; step: string }
  'wrong-cell': { column: string; found: string; expected: string }
  /** One reading with two figures in one test: this row's, and that of the line before it. */
  'reading-twice': { reading: string; found: string; other: string; line: number }
  /** An outcome in words that are not understood, and the words that are. */
  'outcome-unread': { found: string; step: string; words: string }
  /** A row of a test with neither an outcome nor a figure nor a trace. */
  'row-says-nothing': { step: string; words: string }
  /** A place that differs by a slip from another of the log. */
  /** More places in one log than are weighed. */
  'too-many-places': { found: number; limit: number }
  'near-place': { found: string; nearest: string }
  'unknown-trace': { found: string; nearest: string }
  'spray-outside-trace': { from: string; to: string; start: string; end: string }
  // photos
  'not-an-image': { path: string; found: string }
  'picture-broken': { path: string; why: string }
  'picture-colours': { path: string }
  /** More pixels than the limit, in millions. */
  'picture-too-large': { path: string; limit: number }
  'picture-mislabelled': { path: string; found: string }
  /** Why a logo cannot be drawn: a fault of its file, or the part of SVG that is not supported, as written there. */
  'logo-unsupported': { path: string; why: string }
  /** The shop of job.yaml and that of the shop file. */
  'shop-differs': { job: string; file: string }
  'no-signing-date': Record<never, never>
  /** A sentence of the shop's own instead of one that stays as shipped. */
  'text-kept': { key: string }
  /** What a shop's own sentence lacks of what is put into it, and what it has beyond. */
  'text-misfit': { key: string; lacks: string; unknown: string; shipped: string }
  'near-form': { field: string; found: string }
  'copies-of-one-name': { path: string }
  /** A word taken out that the record is written in: `where` is the part that needs it. */
  'word-of-the-record': { where: string }
  /** Photos and embedded captures that make a report larger than `verify` reads. */
  'report-too-large': { size: string; limit: string }
  /** A report that is to be replaced: none there, no result, another output's place (codes of phrases). */
  'replaced-report': { path: string; workOrder: string; why: string }
  // templates, output, our own faults
  'template-invalid': { key: string; found: string; expected: string }
  'output-exists': { path: string }
  'cannot-write': { path: string; why: string }
  'duplicate-work-order': { workOrder: string; other: string }
  /** The job alone needs more memory than it may take; the limit is left empty where the system set it. */
  'out-of-memory': { limit: string }
  /** The job by itself brings the program to what the machine or its control group lets it have. */
  'memory-short': { limit: string }
  'system-short': { why: string }
  'internal-error': { what: string }
}

export type ProblemCode = keyof ProblemArgs
