import type { ProblemCode } from '../problems/codes.ts'
import type { TextKey, WordKey } from './messages.ts'

/** What is said of a code: its sentence, what it means in a few words, an example with what to do. */
export interface CodeWords {
  says: TextKey
  means: WordKey
  explains: WordKey
  /** The sentence where no known word is near. */
  alone?: TextKey
}

/** Every problem in words. */
export const PROBLEM_WORDS = {
  'not-a-folder': {
    says: 'problem.not-a-folder',
    means: 'meaning.not-a-folder',
    explains: 'explain.not-a-folder',
  },
  'file-not-folder': {
    says: 'problem.file-not-folder',
    means: 'meaning.file-not-folder',
    explains: 'explain.file-not-folder',
  },
  'empty-job': { says: 'problem.empty-job', means: 'meaning.empty-job', explains: 'explain.empty-job' },
  'unknown-word': {
    says: 'problem.unknown-word',
    means: 'meaning.unknown-word',
    explains: 'explain.unknown-word',
    alone: 'alone.unknown-word',
  },
  'missing-file': {
    says: 'problem.missing-file',
    means: 'meaning.missing-file',
    explains: 'explain.missing-file',
    alone: 'alone.missing-file',
  },
  'unreadable-file': {
    says: 'problem.unreadable-file',
    means: 'meaning.unreadable-file',
    explains: 'explain.unreadable-file',
  },
  'leaves-folder': {
    says: 'problem.leaves-folder',
    means: 'meaning.leaves-folder',
    explains: 'explain.leaves-folder',
  },
  'empty-file': { says: 'problem.empty-file', means: 'meaning.empty-file', explains: 'explain.empty-file' },
  'not-text': { says: 'problem.not-text', means: 'meaning.not-text', explains: 'explain.not-text' },
  'too-large': { says: 'problem.too-large', means: 'meaning.too-large', explains: 'explain.too-large' },
  'yaml-syntax': {
    says: 'problem.yaml-syntax',
    means: 'meaning.yaml-syntax',
    explains: 'explain.yaml-syntax',
  },
  'not-utf8': { says: 'problem.not-utf8', means: 'meaning.not-utf8', explains: 'explain.not-utf8' },
  'unknown-key': {
    says: 'problem.unknown-key',
    means: 'meaning.unknown-key',
    explains: 'explain.unknown-key',
    alone: 'alone.unknown-key',
  },
  'review-unknown': {
    says: 'problem.review-unknown',
    means: 'meaning.review-unknown',
    explains: 'explain.review-unknown',
  },
  'missing-key': {
    says: 'problem.missing-key',
    means: 'meaning.missing-key',
    explains: 'explain.missing-key',
  },
  'wrong-value': {
    says: 'problem.wrong-value',
    means: 'meaning.wrong-value',
    explains: 'explain.wrong-value',
  },
  'duplicate-entry': {
    says: 'problem.duplicate-entry',
    means: 'meaning.duplicate-entry',
    explains: 'explain.duplicate-entry',
  },
  inconsistent: {
    says: 'problem.inconsistent',
    means: 'meaning.inconsistent',
    explains: 'explain.inconsistent',
  },
  'list-in-one-line': {
    says: 'problem.list-in-one-line',
    means: 'meaning.list-in-one-line',
    explains: 'explain.list-in-one-line',
  },
  'taken-as': { says: 'problem.taken-as', means: 'meaning.taken-as', explains: 'explain.taken-as' },
  'date-open': { says: 'problem.date-open', means: 'meaning.date-open', explains: 'explain.date-open' },
  'rate-doubtful': {
    says: 'problem.rate-doubtful',
    means: 'meaning.rate-doubtful',
    explains: 'explain.rate-doubtful',
  },
  'units-mixed': {
    says: 'problem.units-mixed',
    means: 'meaning.units-mixed',
    explains: 'explain.units-mixed',
  },
  'unit-doubtful': {
    says: 'problem.unit-doubtful',
    means: 'meaning.unit-doubtful',
    explains: 'explain.unit-doubtful',
  },
  'no-such-file': {
    says: 'problem.no-such-file',
    means: 'meaning.no-such-file',
    explains: 'explain.no-such-file',
    alone: 'alone.no-such-file',
  },
  'vin-check-digit': {
    says: 'problem.vin-check-digit',
    means: 'meaning.vin-check-digit',
    explains: 'explain.vin-check-digit',
  },
  'vin-shape': { says: 'problem.vin-shape', means: 'meaning.vin-shape', explains: 'explain.vin-shape' },
  'default-uncertainty': {
    says: 'problem.default-uncertainty',
    means: 'meaning.default-uncertainty',
    explains: 'explain.default-uncertainty',
  },
  'guess-left': { says: 'problem.guess-left', means: 'meaning.guess-left', explains: 'explain.guess-left' },
  'text-cut': { says: 'problem.text-cut', means: 'meaning.text-cut', explains: 'explain.text-cut' },
  'word-quotes': {
    says: 'problem.word-quotes',
    means: 'meaning.word-quotes',
    explains: 'explain.word-quotes',
  },
  'unusual-value': {
    says: 'problem.unusual-value',
    means: 'meaning.unusual-value',
    explains: 'explain.unusual-value',
  },
  'date-outside': {
    says: 'problem.date-outside',
    means: 'meaning.date-outside',
    explains: 'explain.date-outside',
  },
  'stage-order': {
    says: 'problem.stage-order',
    means: 'meaning.stage-order',
    explains: 'explain.stage-order',
  },
  'same-contents': {
    says: 'problem.same-contents',
    means: 'meaning.same-contents',
    explains: 'explain.same-contents',
  },
  'file-not-named': {
    says: 'problem.file-not-named',
    means: 'meaning.file-not-named',
    explains: 'explain.file-not-named',
  },
  'calibration-overdue': {
    says: 'problem.calibration-overdue',
    means: 'meaning.calibration-overdue',
    explains: 'explain.calibration-overdue',
  },
  'no-data-rows': {
    says: 'problem.no-data-rows',
    means: 'meaning.no-data-rows',
    explains: 'explain.no-data-rows',
  },
  'unknown-column': {
    says: 'problem.unknown-column',
    means: 'meaning.unknown-column',
    explains: 'explain.unknown-column',
    alone: 'alone.unknown-column',
  },
  'not-a-number': {
    says: 'problem.not-a-number',
    means: 'meaning.not-a-number',
    explains: 'explain.not-a-number',
  },
  'not-a-time': { says: 'problem.not-a-time', means: 'meaning.not-a-time', explains: 'explain.not-a-time' },
  'ragged-row': { says: 'problem.ragged-row', means: 'meaning.ragged-row', explains: 'explain.ragged-row' },
  'time-backwards': {
    says: 'problem.time-backwards',
    means: 'meaning.time-backwards',
    explains: 'explain.time-backwards',
  },
  'time-gap': { says: 'problem.time-gap', means: 'meaning.time-gap', explains: 'explain.time-gap' },
  'time-missing': {
    says: 'problem.time-missing',
    means: 'meaning.time-missing',
    explains: 'explain.time-missing',
  },
  'ambiguous-dialect': {
    says: 'problem.ambiguous-dialect',
    means: 'meaning.ambiguous-dialect',
    explains: 'explain.ambiguous-dialect',
  },
  'gzip-broken': {
    says: 'problem.gzip-broken',
    means: 'meaning.gzip-broken',
    explains: 'explain.gzip-broken',
  },
  'two-sync': { says: 'problem.two-sync', means: 'meaning.two-sync', explains: 'explain.two-sync' },
  'sync-missing': {
    says: 'problem.sync-missing',
    means: 'meaning.sync-missing',
    explains: 'explain.sync-missing',
  },
  'columns-doubtful': {
    says: 'problem.columns-doubtful',
    means: 'meaning.columns-doubtful',
    explains: 'explain.columns-doubtful',
  },
  'sync-lost': { says: 'problem.sync-lost', means: 'meaning.sync-lost', explains: 'explain.sync-lost' },
  'no-events': { says: 'problem.no-events', means: 'meaning.no-events', explains: 'explain.no-events' },
  'unsupported-ignition': {
    says: 'problem.unsupported-ignition',
    means: 'meaning.unsupported-ignition',
    explains: 'explain.unsupported-ignition',
  },
  'wrong-unit': { says: 'problem.wrong-unit', means: 'meaning.wrong-unit', explains: 'explain.wrong-unit' },
  'line-too-long': {
    says: 'problem.line-too-long',
    means: 'meaning.line-too-long',
    explains: 'explain.line-too-long',
  },
  'too-many-columns': {
    says: 'problem.too-many-columns',
    means: 'meaning.too-many-columns',
    explains: 'explain.too-many-columns',
  },
  'too-many-rows': {
    says: 'problem.too-many-rows',
    means: 'meaning.too-many-rows',
    explains: 'explain.too-many-rows',
  },
  'header-mismatch': {
    says: 'problem.header-mismatch',
    means: 'meaning.header-mismatch',
    explains: 'explain.header-mismatch',
  },
  'frame-columns': {
    says: 'problem.frame-columns',
    means: 'meaning.frame-columns',
    explains: 'explain.frame-columns',
  },
  'header-again': {
    says: 'problem.header-again',
    means: 'meaning.header-again',
    explains: 'explain.header-again',
  },
  'empty-cell': { says: 'problem.empty-cell', means: 'meaning.empty-cell', explains: 'explain.empty-cell' },
  'out-of-range': {
    says: 'problem.out-of-range',
    means: 'meaning.out-of-range',
    explains: 'explain.out-of-range',
  },
  'implausible-voltage': {
    says: 'problem.implausible-voltage',
    means: 'meaning.implausible-voltage',
    explains: 'explain.implausible-voltage',
  },
  'implausible-clock': {
    says: 'problem.implausible-clock',
    means: 'meaning.implausible-clock',
    explains: 'explain.implausible-clock',
  },
  'rate-contradicted': {
    says: 'problem.rate-contradicted',
    means: 'meaning.rate-contradicted',
    explains: 'explain.rate-contradicted',
  },
  'nul-bytes': { says: 'problem.nul-bytes', means: 'meaning.nul-bytes', explains: 'explain.nul-bytes' },
  'rows-above': { says: 'problem.rows-above', means: 'meaning.rows-above', explains: 'explain.rows-above' },
  'line-ends-change': {
    says: 'problem.line-ends-change',
    means: 'meaning.line-ends-change',
    explains: 'explain.line-ends-change',
  },
  'shifted-bytes': {
    says: 'problem.shifted-bytes',
    means: 'meaning.shifted-bytes',
    explains: 'explain.shifted-bytes',
  },
  'row-cut-off': {
    says: 'problem.row-cut-off',
    means: 'meaning.row-cut-off',
    explains: 'explain.row-cut-off',
  },
  'rows-without-figures': {
    says: 'problem.rows-without-figures',
    means: 'meaning.rows-without-figures',
    explains: 'explain.rows-without-figures',
  },
  'time-repeat': {
    says: 'problem.time-repeat',
    means: 'meaning.time-repeat',
    explains: 'explain.time-repeat',
  },
  'time-coarse': {
    says: 'problem.time-coarse',
    means: 'meaning.time-coarse',
    explains: 'explain.time-coarse',
  },
  'time-uneven': {
    says: 'problem.time-uneven',
    means: 'meaning.time-uneven',
    explains: 'explain.time-uneven',
  },
  'changed-while-read': {
    says: 'problem.changed-while-read',
    means: 'meaning.changed-while-read',
    explains: 'explain.changed-while-read',
  },
  'more-problems': {
    says: 'problem.more-problems',
    means: 'meaning.more-problems',
    explains: 'explain.more-problems',
  },
  'near-column': {
    says: 'problem.near-column',
    means: 'meaning.near-column',
    explains: 'explain.near-column',
  },
  'csv-quotes': { says: 'problem.csv-quotes', means: 'meaning.csv-quotes', explains: 'explain.csv-quotes' },
  'unknown-step': {
    says: 'problem.unknown-step',
    means: 'meaning.unknown-step',
    explains: 'explain.unknown-step',
    alone: 'alone.unknown-step',
  },
  'unknown-reading': {
    says: 'problem.unknown-reading',
    means: 'meaning.unknown-reading',
    explains: 'explain.unknown-reading',
    alone: 'alone.unknown-reading',
  },
  'missing-cell': {
    says: 'problem.missing-cell',
    means: 'meaning.missing-cell',
    explains: 'explain.missing-cell',
  },
  'wrong-cell': { says: 'problem.wrong-cell', means: 'meaning.wrong-cell', explains: 'explain.wrong-cell' },
  'outcome-unread': {
    says: 'problem.outcome-unread',
    means: 'meaning.outcome-unread',
    explains: 'explain.outcome-unread',
  },
  'row-says-nothing': {
    says: 'problem.row-says-nothing',
    means: 'meaning.row-says-nothing',
    explains: 'explain.row-says-nothing',
  },
  'too-many-places': {
    says: 'problem.too-many-places',
    means: 'meaning.too-many-places',
    explains: 'explain.too-many-places',
  },
  'near-place': { says: 'problem.near-place', means: 'meaning.near-place', explains: 'explain.near-place' },
  'implausible-speed': {
    says: 'problem.implausible-speed',
    means: 'meaning.implausible-speed',
    explains: 'explain.implausible-speed',
  },
  'reading-twice': {
    says: 'problem.reading-twice',
    means: 'meaning.reading-twice',
    explains: 'explain.reading-twice',
  },
  'unknown-trace': {
    says: 'problem.unknown-trace',
    means: 'meaning.unknown-trace',
    explains: 'explain.unknown-trace',
    alone: 'alone.unknown-trace',
  },
  'spray-outside-trace': {
    says: 'problem.spray-outside-trace',
    means: 'meaning.spray-outside-trace',
    explains: 'explain.spray-outside-trace',
  },
  'log-header-missing': {
    says: 'problem.log-header-missing',
    means: 'meaning.log-header-missing',
    explains: 'explain.log-header-missing',
  },
  'not-an-image': {
    says: 'problem.not-an-image',
    means: 'meaning.not-an-image',
    explains: 'explain.not-an-image',
  },
  'picture-broken': {
    says: 'problem.picture-broken',
    means: 'meaning.picture-broken',
    explains: 'explain.picture-broken',
  },
  'picture-colours': {
    says: 'problem.picture-colours',
    means: 'meaning.picture-colours',
    explains: 'explain.picture-colours',
  },
  'picture-too-large': {
    says: 'problem.picture-too-large',
    means: 'meaning.picture-too-large',
    explains: 'explain.picture-too-large',
  },
  'picture-mislabelled': {
    says: 'problem.picture-mislabelled',
    means: 'meaning.picture-mislabelled',
    explains: 'explain.picture-mislabelled',
  },
  'logo-unsupported': {
    says: 'problem.logo-unsupported',
    means: 'meaning.logo-unsupported',
    explains: 'explain.logo-unsupported',
  },
  'shop-differs': {
    says: 'problem.shop-differs',
    means: 'meaning.shop-differs',
    explains: 'explain.shop-differs',
  },
  'no-signing-date': {
    says: 'problem.no-signing-date',
    means: 'meaning.no-signing-date',
    explains: 'explain.no-signing-date',
  },
  'text-kept': { says: 'problem.text-kept', means: 'meaning.text-kept', explains: 'explain.text-kept' },
  'text-misfit': {
    says: 'problem.text-misfit',
    means: 'meaning.text-misfit',
    explains: 'explain.text-misfit',
  },
  'near-form': { says: 'problem.near-form', means: 'meaning.near-form', explains: 'explain.near-form' },
  'copies-of-one-name': {
    says: 'problem.copies-of-one-name',
    means: 'meaning.copies-of-one-name',
    explains: 'explain.copies-of-one-name',
  },
  'word-of-the-record': {
    says: 'problem.word-of-the-record',
    means: 'meaning.word-of-the-record',
    explains: 'explain.word-of-the-record',
  },
  'report-too-large': {
    says: 'problem.report-too-large',
    means: 'meaning.report-too-large',
    explains: 'explain.report-too-large',
  },
  'replaced-report': {
    says: 'problem.replaced-report',
    means: 'meaning.replaced-report',
    explains: 'explain.replaced-report',
  },
  'template-invalid': {
    says: 'problem.template-invalid',
    means: 'meaning.template-invalid',
    explains: 'explain.template-invalid',
  },
  'output-exists': {
    says: 'problem.output-exists',
    means: 'meaning.output-exists',
    explains: 'explain.output-exists',
  },
  'cannot-write': {
    says: 'problem.cannot-write',
    means: 'meaning.cannot-write',
    explains: 'explain.cannot-write',
  },
  'duplicate-work-order': {
    says: 'problem.duplicate-work-order',
    means: 'meaning.duplicate-work-order',
    explains: 'explain.duplicate-work-order',
  },
  'out-of-memory': {
    says: 'problem.out-of-memory',
    means: 'meaning.out-of-memory',
    explains: 'explain.out-of-memory',
  },
  'memory-short': {
    says: 'problem.memory-short',
    means: 'meaning.memory-short',
    explains: 'explain.memory-short',
  },
  'system-short': {
    says: 'problem.system-short',
    means: 'meaning.system-short',
    explains: 'explain.system-short',
  },
  'internal-error': {
    says: 'problem.internal-error',
    means: 'meaning.internal-error',
    explains: 'explain.internal-error',
  },
} as const satisfies Record<ProblemCode, CodeWords>

/** Reasons that a problem gives by a code. */
export const REASONS: Readonly<Record<string, Readonly<Record<string, WordKey>>>> = {
  'picture-broken': {
    broken: 'phrase.picture-broken.broken',
    'cut-off': 'phrase.picture-broken.cut-off',
    damaged: 'phrase.picture-broken.damaged',
    unsupported: 'phrase.picture-broken.unsupported',
  },
  'replaced-report': {
    none: 'phrase.replaced-report.none',
    'not-a-result': 'phrase.replaced-report.not-a-result',
    altered: 'phrase.replaced-report.altered',
    'in-the-way': 'phrase.replaced-report.in-the-way',
  },
  'logo-unsupported': {
    unknown: 'phrase.logo-unsupported.unknown',
    broken: 'phrase.logo-unsupported.broken',
    'cut-off': 'phrase.logo-unsupported.cut-off',
    damaged: 'phrase.logo-unsupported.damaged',
    'ink-colours': 'phrase.logo-unsupported.ink-colours',
    unsupported: 'phrase.logo-unsupported.unsupported',
    'too-large': 'phrase.logo-unsupported.too-large',
  },
  'not-text': {
    workbook: 'phrase.not-text.workbook',
    zip: 'phrase.not-text.zip',
    archive: 'phrase.not-text.archive',
    pdf: 'phrase.not-text.pdf',
    picture: 'phrase.not-text.picture',
    'web-page': 'phrase.not-text.web-page',
    document: 'phrase.not-text.document',
    'side-file': 'phrase.not-text.side-file',
    zeros: 'phrase.not-text.zeros',
  },
  'unreadable-file': {
    EACCES: 'phrase.unreadable-file.EACCES',
    EPERM: 'phrase.unreadable-file.EPERM',
    ELOOP: 'phrase.unreadable-file.ELOOP',
    ENAMETOOLONG: 'phrase.unreadable-file.ENAMETOOLONG',
  },
  'system-short': {
    EAGAIN: 'phrase.system-short.EAGAIN',
    EMFILE: 'phrase.system-short.EMFILE',
    ENFILE: 'phrase.system-short.ENFILE',
    ENOMEM: 'phrase.system-short.ENOMEM',
  },
  'cannot-write': {
    EACCES: 'phrase.cannot-write.EACCES',
    EPERM: 'phrase.cannot-write.EPERM',
    ENOSPC: 'phrase.cannot-write.ENOSPC',
    EROFS: 'phrase.cannot-write.EROFS',
    EDQUOT: 'phrase.cannot-write.EDQUOT',
    EFBIG: 'phrase.cannot-write.EFBIG',
    EIO: 'phrase.cannot-write.EIO',
    ENOTDIR: 'phrase.cannot-write.ENOTDIR',
    EEXIST: 'phrase.cannot-write.EEXIST',
  },
  'gzip-broken': {
    Z_BUF_ERROR: 'phrase.gzip-broken.Z_BUF_ERROR',
    Z_DATA_ERROR: 'phrase.gzip-broken.Z_DATA_ERROR',
  },
  'sync-lost': {
    'no-pulses': 'phrase.sync-lost.no-pulses',
    'pulses-disagree': 'phrase.sync-lost.pulses-disagree',
    'pulse-midway': 'phrase.sync-lost.pulse-midway',
    'too-few-events': 'phrase.sync-lost.too-few-events',
    'pulses-wide': 'phrase.sync-lost.pulses-wide',
    'one-pulse': 'phrase.sync-lost.one-pulse',
    'firings-missing': 'phrase.sync-lost.firings-missing',
  },
  'unsupported-ignition': {
    'multi-strike': 'phrase.unsupported-ignition.multi-strike',
    'capacitor-discharge': 'phrase.unsupported-ignition.capacitor-discharge',
  },
}
