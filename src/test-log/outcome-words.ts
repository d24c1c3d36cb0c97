/**
 * Reads what a technician wrote as the outcome of a test, in English, German, French or Spanish: yes and no, the
 * engine's answers, leak and no leak, states of a part. Words that are not known, and words that say two things at once,
 * are not read: they are asked about.
 *
 * @source common practice, no source: words of the trade
 */

/** States an outcome can mean, each with the phrases that say it; a `*` at the end stands for any ending. */
export type Vocabulary<S extends string> = Readonly<Record<S, readonly string[]>>

/** How a kind of outcome is read. */
export interface OutcomeKind<S extends string> {
  phrases: Vocabulary<S>
  /** What a bare no (or none, nothing) says, and what the denial of each state says. */
  no?: S
  denied?: Readonly<Partial<Record<S, S>>>
  /** States that may stand beside one another; the earlier one is meant (black and wet). */
  together?: readonly S[]
  /** Words that "still" leaves as they are ("still responds"); any other that it stands before says no ("still up and down"). */
  still?: readonly string[]
}

const NO = [
  'no',
  'none',
  'not',
  'nothing',
  'nope',
  'without',
  'never',
  'nil',
  'n',
  'didnt',
  'doesnt',
  'isnt',
  'nein',
  'nicht',
  'nichts',
  'kein*',
  'ohne',
  'non',
  'pas',
  'aucun*',
  'rien',
  'sans',
  'ningun*',
  'nada',
  'sin',
] as const
const STILL = [
  'still',
  'immer noch',
  'noch',
  'weiterhin',
  'toujours',
  'encore',
  'todavia',
  'sigue',
  'aun',
] as const
const NO_LONGER = [
  'no longer',
  'no more',
  'not any more',
  'not anymore',
  'nicht mehr',
  'kein* mehr',
  'ya no',
] as const
/** Denials that stand behind what they deny ("reagiert nicht"). */
const BEHIND: ReadonlySet<string> = new Set(['nicht', 'pas'])
const UNSURE = [
  // "ne réagit plus" and "ne cale plus" deny opposite things
  'ne * plus',
  'not sure',
  'unsure',
  'maybe',
  'perhaps',
  'possibly',
  'unclear',
  'hard to tell',
  'hard to say',
  'cannot say',
  'unsicher',
  'vielleicht',
  'unklar',
  'nicht sicher',
  'peut etre',
  'pas sur',
  'incertain*',
  'quiza*',
  'tal vez',
  'no se',
  'dudoso',
  'no seguro',
] as const

/** Words a denial may be parted by from what it denies ("no real change"). */
const REACH = 3

type Sign = 'no' | 'still' | 'no longer' | 'unsure'
interface Found<S> {
  at: number
  length: number
  first: string
  means: { sign: Sign } | { state: S }
}

/** Words in small letters without accents; the apostrophe of a shortened word falls away. */
export const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .normalize('NFD')
    .replaceAll(/[\u0300-\u036f'\u2019]/g, '')
    .split(/[^a-z0-9%]+/)
    .filter((w) => w !== '')

/** The state the words mean; undefined where they mean none, or more than one. */
export function readOutcome<S extends string>(text: string | undefined, kind: OutcomeKind<S>): S | undefined {
  if (text === undefined || text.includes('?')) return undefined
  const found = foundIn(wordsOf(text), kind)
  if (found.some(({ means }) => 'sign' in means && means.sign === 'unsure')) return undefined
  const states = new Set(meaningsOf(found, kind))
  if (states.size === 1) return [...states][0]
  const beside = kind.together ?? []
  return states.size > 1 && [...states].every((s) => beside.includes(s))
    ? beside.find((s) => states.has(s))
    : undefined
}

function meaningsOf<S extends string>(found: readonly Found<S>[], kind: OutcomeKind<S>): S[] {
  const said: S[] = []
  const say = (state: S | undefined) => {
    if (state !== undefined) said.push(state)
  }
  const opposite = (state: S | undefined) => state && kind.denied?.[state]
  found.forEach((one, i) => {
    const [before, after] = [found[i - 1], found[i + 1]]
    if ('sign' in one.means) {
      const denies = before && 'state' in before.means && BEHIND.has(one.first) && gap(before, one) === 0
      if (denies) return
      // "still no response": what follows says what is meant.
      if (after && gap(one, after) < REACH && (one.means.sign === 'still' || 'state' in after.means)) {
        if (one.means.sign !== 'no longer' || (gap(one, after) === 0 && isAnswer(after, kind))) return
      }
      say(one.means.sign === 'no longer' ? opposite(kind.no) : kind.no)
      return
    }
    const { state } = one.means
    const sign = before && 'sign' in before.means && gap(before, one) < REACH ? before.means.sign : undefined
    const behind = after && 'sign' in after.means && BEHIND.has(after.first) && gap(one, after) === 0
    if (sign === 'no' || behind) say(opposite(state))
    else if (sign === 'still') say(isAnswer(one, kind) ? state : kind.no)
    else if (sign === 'no longer' && gap(before!, one) === 0 && isAnswer(one, kind)) say(opposite(state))
    else say(state)
  })
  return said
}

/** Words between two phrases. */
const gap = (a: { at: number; length: number }, b: { at: number }): number => b.at - (a.at + a.length)

/** Words that "still" leaves as they are. */
const isAnswer = <S extends string>({ first }: Found<S>, { still }: OutcomeKind<S>): boolean =>
  !still || still.some((part) => isWord(first, part))

/** Phrases in the order of the words, the longest one first where several begin at one word. */
function foundIn<S extends string>(words: readonly string[], { phrases }: OutcomeKind<S>): Found<S>[] {
  const all: { parts: readonly string[]; means: Found<S>['means'] }[] = [
    ...Object.entries<readonly string[]>(phrases).flatMap(([state, of]) =>
      of.map((p) => ({ parts: p.split(' '), means: { state: state as S } })),
    ),
    ...(
      [
        ['unsure', UNSURE],
        ['no longer', NO_LONGER],
        ['no', NO],
        ['still', STILL],
      ] as const
    ).flatMap(([sign, of]) => of.map((p) => ({ parts: p.split(' '), means: { sign } }))),
  ]
  const found: Found<S>[] = []
  for (let at = 0; at < words.length;) {
    const fits = all
      .filter(({ parts }) => parts.every((part, i) => isWord(words[at + i], part)))
      .sort((a, b) => b.parts.length - a.parts.length)[0]
    if (fits) found.push({ at, length: fits.parts.length, first: words[at]!, means: fits.means })
    at += fits?.parts.length ?? 1
  }
  return found
}

const isWord = (word: string | undefined, part: string): boolean =>
  word !== undefined && (part.endsWith('*') ? word.startsWith(part.slice(0, -1)) : word === part)

/** Whether the engine answered: to a spray, a capped or opened port, a part commanded. */
export const ANSWER: OutcomeKind<'yes' | 'no'> = {
  phrases: {
    yes: [
      'yes',
      'y',
      'response',
      'respon*',
      'answer*',
      'react*',
      'chang*',
      'rose',
      'rise*',
      'rising',
      'up',
      'went up',
      'increas*',
      'higher',
      'faster',
      'raced',
      'flared',
      'surg*',
      'drop*',
      'fell',
      'falls',
      'down',
      'lower',
      'slower',
      'smooth*',
      'settl*',
      'steadi*',
      'steady',
      'calm*',
      'stumbl*',
      'stall*',
      'died',
      'dies',
      'stopped',
      'stops',
      'cured',
      'better',
      'improv*',
      'fixed',
      'gone',
      'went away',
      'goes away',
      'cleared',
      'returned',
      'returns',
      'came back',
      'leak*',
      'bogged',
      'dipped',
      'picked up',
      'ja',
      'reaktion',
      'reagier*',
      'anderung',
      'andert*',
      'geandert',
      'steigt',
      'stieg*',
      'hoher',
      'sinkt',
      'sank',
      'fallt',
      'fiel',
      'ruhig*',
      'stabil*',
      'besser',
      'weg',
      'ging aus',
      'geht aus',
      'stottert*',
      'behoben',
      'kam wieder',
      'leck*',
      'oui',
      'reagi*',
      'reponse',
      'chang*',
      'monte',
      'montee',
      'augment*',
      'baiss*',
      'chut*',
      'stable',
      'stabilis*',
      'regulier',
      'mieux',
      'cale',
      'calee',
      'repare',
      'disparu*',
      'revenu',
      'fuit*',
      'fuite*',
      'si',
      'respuesta',
      'respond*',
      'reaccion*',
      'cambi*',
      'subio',
      'sube*',
      'aument*',
      'baja*',
      'bajo',
      'cayo',
      'estable',
      'estabiliz*',
      'mejor*',
      'se cala',
      'se calo',
      'arreglado',
      'desapareci*',
      'volvio',
      'fuga*',
    ],
    no: [
      'up and down',
      'auf und ab',
      'monte et descend',
      'sube y baja',
      'unchanged',
      'same',
      'as before',
      'unverandert',
      'gleich',
      'wie vorher',
      'inchange*',
      'pareil',
      'idem',
      'igual',
      'unresponsive',
      'ns',
    ],
  },
  no: 'no',
  denied: { yes: 'no', no: 'yes' },
  still: [
    'respon*',
    'answer*',
    'react*',
    'reag*',
    'leak*',
    'reponse',
    'fuit*',
    'fuga*',
    'leck*',
    'chang*',
    'no',
    'same',
  ],
}

/** Whether something came out, or blew, at the place. */
export const LEAK: OutcomeKind<'yes' | 'no'> = {
  phrases: {
    yes: [
      'yes',
      'y',
      'leak*',
      'response',
      'smoke*',
      'came out',
      'comes out',
      'out',
      'bubbl*',
      'blow*',
      'blew',
      'hiss*',
      'split',
      'torn',
      'crack*',
      'positive',
      'ja',
      'leck*',
      'undicht*',
      'rauch*',
      'tritt aus',
      'trat aus',
      'blasen',
      'zischt',
      'gerissen',
      'blast*',
      'oui',
      'fuit*',
      'fuite*',
      'fumee*',
      'sort',
      'bulles',
      'souffl*',
      'fendu*',
      'si',
      'fuga*',
      'humo*',
      'sale',
      'burbuj*',
      'sopla*',
      'roto',
      'rajad*',
      'passes',
      'open',
    ],
    no: [
      'tight',
      'dry',
      'sealed',
      'seals',
      'ok',
      'okay',
      'good',
      'in order',
      'holds',
      'negative',
      'closed',
      'shuts',
      'dicht',
      'trocken',
      'in ordnung',
      'io',
      'halt',
      'etanche',
      'bon',
      'bonne',
      'sec',
      'tient',
      'estanc*',
      'seco',
      'bien',
      'correct*',
      'cierra',
    ],
  },
  no: 'no',
  denied: { yes: 'no', no: 'yes' },
}

/** What became of the fault after a repair. */
export const MENDED: OutcomeKind<'fixed' | 'not fixed'> = {
  phrases: {
    fixed: [
      'fixed',
      'cured',
      'solved',
      'resolved',
      'mended',
      'repaired',
      'ok',
      'okay',
      'good',
      'gone',
      'in order',
      'yes',
      'behoben',
      'repariert',
      'in ordnung',
      'io',
      'weg',
      'ja',
      'repare*',
      'resolu*',
      'oui',
      'bon',
      'disparu*',
      'reparad*',
      'arreglad*',
      'resuelt*',
      'si',
      'bien',
      'smooth*',
      'runs well',
      'runs fine',
      'lauft gut',
      'lauft rund',
    ],
    'not fixed': [
      'same',
      'unchanged',
      'as before',
      'no change',
      'no better',
      'no improvement',
      'no difference',
      'came back',
      'returned',
      'unverandert',
      'gleich',
      'inchange*',
      'pareil',
      'igual',
      'keine anderung',
      'keine besserung',
      'pas de changement',
      'sin cambio*',
    ],
  },
  no: 'not fixed',
  denied: { fixed: 'not fixed', 'not fixed': 'fixed' },
}

/** Whether the fault went with the part that was changed over. */
export const SWAPPED: OutcomeKind<'followed' | 'stayed'> = {
  phrases: {
    followed: [
      'follow*',
      'moved',
      'moves',
      'moved with',
      'went with',
      'goes with',
      'travel*',
      'yes',
      'wandert*',
      'mitgewandert',
      'gewandert',
      'ja',
      'suivi*',
      'suit',
      'deplace*',
      'oui',
      'siguio',
      'se movio',
      'se fue',
      'si',
      'changed cylinder',
      'now on *',
      'now in *',
      'jetzt auf *',
    ],
    stayed: [
      'stay*',
      'remain*',
      'same',
      'same cylinder',
      'unchanged',
      'no change',
      'bleibt',
      'blieb',
      'geblieben',
      'gleich',
      'reste*',
      'pareil',
      'se queda',
      'se quedo',
      'queda',
      'igual',
    ],
  },
  no: 'stayed',
  denied: { followed: 'stayed', stayed: 'followed' },
}

const FINE = [
  'ok',
  'okay',
  'good',
  'fine',
  'normal',
  'in order',
  'in limits',
  'in spec',
  'within spec',
  'pass*',
  'even',
  'equal',
  'alike',
  'right',
  'correct',
  'clean',
  'follows',
  'works',
  'in ordnung',
  'io',
  'gut',
  'gleich',
  'gleichmassig',
  'stimmt',
  'stimmen',
  'sauber',
  'bon',
  'bonne',
  'bons',
  'bonnes',
  'correct*',
  'normal*',
  'egal*',
  'conforme*',
  'bien',
  'buen*',
  'igual*',
  'limpi*',
  'en orden',
] as const

/** A part that is in order or is not, with the words for what is wrong with it. */
export const partState = <S extends string>(
  wrong: Vocabulary<S>,
  more: { fine?: readonly string[]; together?: readonly S[] } = {},
): OutcomeKind<S | 'in order'> => ({
  phrases: { 'in order': [...FINE, ...(more.fine ?? [])], ...wrong } as unknown as Vocabulary<S | 'in order'>,
  denied: {
    // "not ok" does not say which of several things is wrong.
    ...(Object.keys(wrong).length === 1 ? { 'in order': Object.keys(wrong)[0] } : {}),
    ...Object.fromEntries(Object.keys(wrong).map((s) => [s, 'in order'])),
  } as unknown as Partial<Record<S | 'in order', S | 'in order'>>,
  ...(more.together ? { together: more.together } : {}),
})

/** How a step declares outcomes of a kind. */
export const outcomesOf = <S extends string>(
  kind: OutcomeKind<S>,
  words: readonly string[],
  needed = true,
): { reads: (text: string) => boolean; words: readonly string[]; needed: boolean } => ({
  reads: (text) => readOutcome(text, kind) !== undefined,
  words,
  needed,
})
