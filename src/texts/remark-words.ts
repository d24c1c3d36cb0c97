import type { TextKey, WordKey } from './messages.ts'
import type { CodeWords } from './problem-words.ts'

/** What is said of a remark on a capture. */
export interface RemarkWords extends CodeWords {
  /** The sentence for several channels alike. */
  together?: TextKey
  /** Why it withholds a verdict, in a few words. */
  gate?: WordKey
}

/** Every remark on a capture in words. */
export const REMARK_WORDS = {
  'no-events-channel': {
    says: 'remark.no-events-channel',
    means: 'meaning.no-events-channel',
    explains: 'explain.no-events-channel',
    gate: 'gate.no-events-channel',
  },
  'polarity-unsure': {
    says: 'remark.polarity-unsure',
    means: 'meaning.polarity-unsure',
    explains: 'explain.polarity-unsure',
    gate: 'gate.polarity-unsure',
  },
  'polarity-contradicted': {
    says: 'remark.polarity-contradicted',
    means: 'meaning.polarity-contradicted',
    explains: 'explain.polarity-contradicted',
    gate: 'gate.polarity-contradicted',
  },
  'clipped-top': {
    says: 'remark.clipped-top',
    means: 'meaning.clipped-top',
    explains: 'explain.clipped-top',
    together: 'remark.together.clipped-top',
  },
  'clipped-line': {
    says: 'remark.clipped-line',
    means: 'meaning.clipped-line',
    explains: 'explain.clipped-line',
    together: 'remark.together.clipped-line',
    gate: 'gate.clipped-line',
  },
  'sampling-slow': {
    says: 'remark.sampling-slow',
    means: 'meaning.sampling-slow',
    explains: 'explain.sampling-slow',
    together: 'remark.together.sampling-slow',
  },
  'sync-bridged': {
    says: 'remark.sync-bridged',
    means: 'meaning.sync-bridged',
    explains: 'explain.sync-bridged',
  },
  'sync-extra': { says: 'remark.sync-extra', means: 'meaning.sync-extra', explains: 'explain.sync-extra' },
  'sync-untold': {
    says: 'remark.sync-untold',
    means: 'meaning.sync-untold',
    explains: 'explain.sync-untold',
  },
  'wasted-unclear': {
    says: 'remark.wasted-unclear',
    means: 'meaning.wasted-unclear',
    explains: 'explain.wasted-unclear',
    gate: 'gate.wasted-unclear',
  },
  'no-lines': {
    says: 'remark.no-lines',
    means: 'meaning.no-lines',
    explains: 'explain.no-lines',
    gate: 'gate.no-lines',
  },
  'wasted-some-unclear': {
    says: 'remark.wasted-some-unclear',
    means: 'meaning.wasted-some-unclear',
    explains: 'explain.wasted-some-unclear',
  },
  'mains-hum': { says: 'remark.mains-hum', means: 'meaning.mains-hum', explains: 'explain.mains-hum' },
  'pickup-droop': {
    says: 'remark.pickup-droop',
    means: 'meaning.pickup-droop',
    explains: 'explain.pickup-droop',
  },
  'few-events': {
    says: 'remark.few-events',
    means: 'meaning.few-events',
    explains: 'explain.few-events',
    gate: 'gate.few-events',
  },
  'line-slow': {
    says: 'remark.line-slow',
    means: 'meaning.line-slow',
    explains: 'explain.line-slow',
    gate: 'gate.line-slow',
  },
  'steps-coarse': {
    says: 'remark.steps-coarse',
    means: 'meaning.steps-coarse',
    explains: 'explain.steps-coarse',
    gate: 'gate.steps-coarse',
  },
  'level-drift': {
    says: 'remark.level-drift',
    means: 'meaning.level-drift',
    explains: 'explain.level-drift',
  },
  'cold-engine': {
    says: 'remark.cold-engine',
    means: 'meaning.cold-engine',
    explains: 'explain.cold-engine',
  },
  cranking: {
    says: 'remark.cranking',
    means: 'meaning.cranking',
    explains: 'explain.cranking',
    gate: 'gate.cranking',
  },
  'not-at-idle': {
    says: 'remark.not-at-idle',
    means: 'meaning.not-at-idle',
    explains: 'explain.not-at-idle',
  },
  'events-left-out': {
    says: 'remark.events-left-out',
    means: 'meaning.events-left-out',
    explains: 'explain.events-left-out',
  },
  'recording-only': {
    says: 'remark.recording-only',
    means: 'meaning.recording-only',
    explains: 'explain.recording-only',
  },
  'rise-with-speed': {
    says: 'remark.rise-with-speed',
    means: 'meaning.rise-with-speed',
    explains: 'explain.rise-with-speed',
  },
  'class-with-speed': {
    says: 'remark.class-with-speed',
    means: 'meaning.class-with-speed',
    explains: 'explain.class-with-speed',
  },
  'burn-short': { says: 'remark.burn-short', means: 'meaning.burn-short', explains: 'explain.burn-short' },
  'ratio-unknown': {
    says: 'remark.ratio-unknown',
    means: 'meaning.ratio-unknown',
    explains: 'explain.ratio-unknown',
  },
  'whole-coil': { says: 'remark.whole-coil', means: 'meaning.whole-coil', explains: 'explain.whole-coil' },
  'clock-jumps': {
    says: 'remark.clock-jumps',
    means: 'meaning.clock-jumps',
    explains: 'explain.clock-jumps',
  },
  frames: { says: 'remark.frames', means: 'meaning.frames', explains: 'explain.frames' },
} as const satisfies Record<string, RemarkWords>

/** A remark on the quality of a capture. */
export type RemarkCode = keyof typeof REMARK_WORDS

/** Undefined for a remark of another version of the program. */
export const remarkWords = (code: string): RemarkWords | undefined =>
  Object.hasOwn(REMARK_WORDS, code) ? REMARK_WORDS[code as RemarkCode] : undefined
