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
  /** A state that says less than the others and gives way to them (replaced and cured: cured). */
  givesWay?: S
  /** What a figure of speed says that went up or down ("+80 rpm", "750 -> 900"), and one that stayed. */
  moved?: S
  stayed?: S
}

const NO = [
  'nowhere',
  'nirgend*',
  'nulle part',
  'zero',
  '0',
  'null',
  'cero',
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
  'wasnt',
  'havent',
  'hasnt',
  'cant',
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
/** German without its umlauts: written in two letters where a keyboard has none. */
export const withoutUmlauts = (word: string): string => word.replaceAll(/([aou])e/g, '$1')

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
const BEHIND: ReadonlySet<string> = new Set(['nicht', 'pas', 'nulle'])
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

/** Letters with full stops are one word: "i.O.", "R.A.S.", "P.C.V.". */
const DOTTED = /(?<!\p{L})(?:\p{L}\.){2,}(?:\p{L}(?!\p{L}))?/gu

/** French words shortened before a vowel: "d'admission", "s'arrête". */
const ELIDED = /(?<!\p{L})([cdjlmst]|qu)['\u2019](?=\p{L})/giu

/** Words in small letters without accents; the apostrophe of a shortened word falls away. */
export const wordsOf = (text: string): string[] =>
  text
    .replaceAll(/(?<!\p{L})n['\u2019](?=\p{L})/giu, 'ne ')
    .replaceAll(ELIDED, '$1 ')
    .replaceAll(DOTTED, (letters) => `${letters.replaceAll('.', '')} `)
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .normalize('NFD')
    .replaceAll(/[\u0300-\u036f'\u2019]/g, '')
    .split(/[^a-z0-9%]+/)
    .filter((w) => w !== '')

/** The state the words mean; undefined where they mean none, or more than one. */
export function readOutcome<S extends string>(text: string | undefined, kind: OutcomeKind<S>): S | undefined {
  if (text === undefined || text.includes('?')) return undefined
  const { words, figures } = figuresIn(text, kind)
  if (figures === 'unsure') return undefined
  const found = foundIn(wordsOf(words), kind)
  if (found.some(({ means }) => 'sign' in means && means.sign === 'unsure')) return undefined
  const states = new Set([...meaningsOf(found, kind), ...figures])
  if (states.size > 1 && kind.givesWay !== undefined) states.delete(kind.givesWay)
  if (states.size === 1) return [...states][0]
  const beside = kind.together ?? []
  return states.size > 1 && [...states].every((s) => beside.includes(s))
    ? beside.find((s) => states.has(s))
    : undefined
}

/** A change of speed with its sign ("+80 rpm"), and speeds before and behind an arrow ("750 -> 900"). */
const SIGNED = /(?<![\d.,+\-\u2212])([+\-\u2212])\s*(\d{1,4})(?![\d%])/g
const ARROW = /(\d{3,4})\s*(?:-+>|=>|\u2192)\s*(\d{3,4})/g
/** Changes nearer to nothing than this are within what a needle does by itself: asked about, rpm; none at all is none. */
const LEAST_RPM = 20

/** What figures of speed in the text say, and the text without them. */
function figuresIn<S extends string>(
  text: string,
  { moved, stayed }: OutcomeKind<S>,
): { words: string; figures: readonly S[] | 'unsure' } {
  if (moved === undefined || stayed === undefined) return { words: text, figures: [] }
  const changes: number[] = []
  const take = (rpm: number): string => {
    changes.push(Math.abs(rpm))
    return ' '
  }
  const words = text
    .replaceAll(ARROW, (_, from: string, to: string) => take(Number(to) - Number(from)))
    .replaceAll(SIGNED, (_, __, rpm: string) => take(Number(rpm)))
  if (changes.some((rpm) => rpm > 0 && rpm < LEAST_RPM)) return { words, figures: 'unsure' }
  return { words, figures: changes.map((rpm) => (rpm === 0 ? stayed : moved)) }
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
  word !== undefined &&
  [word, withoutUmlauts(word)].some((w) =>
    part.endsWith('*') ? w.startsWith(part.slice(0, -1)) : w === part,
  )

/**
 * Whether the engine answered: to a spray, a part commanded. A speed that stands still is no answer; one that came to a
 * stand is.
 */
export const ANSWER: OutcomeKind<'yes' | 'no'> = {
  phrases: {
    yes: [
      'positive',
      'asient*',
      'asent*',
      'positiv',
      'positif',
      'positivo',
      'positiva',
      'hit',
      'climb*',
      'rev up',
      'revved',
      'sped',
      'speeds',
      'accelerat*',
      'accelere*',
      'acelera*',
      'acelero',
      'jump*',
      'shot up',
      'shoots up',
      'misfire*',
      'hesitat*',
      'nearly died',
      'became stable',
      'now steady',
      'now stable',
      'ok now',
      'stays up',
      'stayed up',
      'stay* high*',
      'stay* low*',
      'gestiegen',
      'hoch',
      'runder',
      'gleichmassiger',
      'ausgegangen',
      'geht * aus',
      'ging * aus',
      'undicht*',
      'schuttelt*',
      'ruckelt*',
      'stirbt',
      'starb',
      'abgestorben',
      'abgewurgt',
      'positiv',
      'gefallen',
      'gesunken',
      'drehzahlander*',
      'drehzahlanstieg',
      'drehzahlabfall',
      'drehzahlerhohung',
      'anstieg',
      'abfall',
      'beruhig*',
      'stabilis*',
      'fangt sich',
      'bleibt oben',
      'bleibt hoch',
      'variation*',
      'varie*',
      'broute*',
      'hoquette*',
      'plus rond',
      'plus regulier',
      'plus stable',
      'plus calme',
      'a cale',
      'hesite*',
      'tousse*',
      'vibre*',
      's emballe',
      'emballe',
      'ralentit',
      'accelerait',
      's etouffe',
      'etouffe',
      'diminu*',
      's ameliore',
      'amelior*',
      'se apaga',
      'se apago',
      'apago',
      'apaga',
      'titube*',
      'titubea*',
      'mas suave',
      'mas estable',
      'mas fino',
      'suben',
      'bajan',
      'subio',
      'subieron',
      'bajaron',
      'vibra',
      'tironea',
      'se ahoga',
      'ahoga',
      'varia',
      'vario',
      'variacion',
      'revoluciona',
      'se para',
      'se paro',
      'tose',
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
      'stabilis*',
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
      'steady',
      'stable',
      'stabil',
      'constant',
      'konstant',
      'negative',
      'negativ',
      'negatif',
      'negativo',
      'negativa',
      'neg',
      'nc',
      'n c',
      'silent',
      'quiet',
      'level',
      'flat',
      'no op',
      'same rpm',
      'stay* *',
      'remain* *',
      'held',
      'holds',
      'kept',
      'unaffected',
      'unfazed',
      'ok',
      'okay',
      'io',
      'i o',
      'in ordnung',
      'tight',
      'sealed',
      'dry',
      'ob',
      'o b',
      'bleibt *',
      'blieb *',
      'bleibt',
      'blieb',
      'dicht',
      'gleichbleibend',
      'unbeeindruckt',
      'ras',
      'etanche',
      'stable',
      'constant',
      'constante',
      'reste *',
      'regulier',
      'identique*',
      'meme',
      'bon',
      'neant',
      'estable',
      'constante',
      'invariable',
      'mismo',
      'misma',
      'se mantiene',
      'se queda igual',
      'queda igual',
      'estanco',
      'estanca',
      'regular',
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
  moved: 'yes',
  stayed: 'no',
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

/** What says how an idle is, rather than what became of it: after a port was closed it may be the cure or no change at all. */
const HOW_IT_IDLES: ReadonlySet<string> = new Set([
  'steady',
  'stable',
  'stabil',
  'constant',
  'konstant',
  'level',
  'flat',
  'quiet',
  'ok',
  'okay',
  'io',
  'i o',
  'in ordnung',
  'held',
  'holds',
  'tight',
  'sealed',
  'dry',
  'dicht',
  'bon',
  'regulier',
  'constante',
  'estable',
  'regular',
  'etanche',
  'estanco',
  'estanca',
])

const withoutHow = ANSWER.phrases.no.filter((phrase) => !HOW_IT_IDLES.has(phrase))

/** The same of a port opened again, where "steady" alone may be the cure or no change at all and is asked about. */
export const OPENED: OutcomeKind<'yes' | 'no'> = {
  ...ANSWER,
  phrases: { yes: ANSWER.phrases.yes, no: withoutHow },
}

/** The same of a port closed, where an idle that is normal again is an answer. */
export const CAPPED: OutcomeKind<'yes' | 'no'> = {
  ...ANSWER,
  phrases: {
    yes: [...ANSWER.phrases.yes, 'normal', 'lauft rund', 'runs well', 'runs fine', 'tourne rond'],
    no: withoutHow,
  },
}

/** The same of a part commanded: one that does what it is told is in order. */
export const COMMANDED: OutcomeKind<'yes' | 'no'> = {
  ...ANSWER,
  phrases: {
    yes: [
      ...ANSWER.phrases.yes,
      'ok',
      'okay',
      'io',
      'i o',
      'in ordnung',
      'works',
      'follow*',
      'folgt',
      'suit',
      'obedece*',
      'gehorcht',
      'working',
      'moves',
      'moved',
      'opens',
      'clicks',
      'normal',
      'funktioniert',
      'bewegt sich',
      'fonctionne',
      'bon',
      'funciona',
      'bien',
    ],
    no: withoutHow,
  },
}

/** Whether something came out, or blew, at the place. */
export const LEAK: OutcomeKind<'yes' | 'no'> = {
  phrases: {
    yes: [
      'durchlass*',
      'passe',
      'pasa',
      'positiv',
      'positif',
      'positivo',
      'qualm*',
      'pierde*',
      'seep*',
      'puff*',
      'wisp*',
      'plume',
      'escaping',
      'escapes',
      'nio',
      'n i o',
      'zieht luft',
      'sifflement',
      'siffle*',
      'porös',
      'poros',
      'entweicht',
      'nebel',
      'quillt',
      'echappe*',
      'silb*',
      'perd*',
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
      'ferme',
      'schliesst',
      'cierran',
      'tiennent',
      'fermes',
      'negativ',
      'negatif',
      'negativo',
      'neg',
      'nc',
      'n c',
      'i o',
      'ob',
      'o b',
      'ras',
      'hermetic*',
      'hermetique',
      'intact',
      'cerrado',
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

/** What became of the fault after a repair; `done`: the work was carried out, and nothing is said of the fault. */
export const MENDED: OutcomeKind<'fixed' | 'not fixed' | 'done'> = {
  phrases: {
    fixed: [
      'gut',
      'fine',
      'i o',
      'ok now',
      'normal',
      'sorted',
      'no fault',
      'no longer leak*',
      'runs smooth',
      'runs right',
      'runs normal',
      'tourne rond',
      'tourne bien',
      'va bien',
      'funciona',
      'solucionad*',
      'corregid*',
      'eliminad*',
      'beseitigt',
      'lauft wieder',
      'lauft normal',
      'lauft ruhig',
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
      'nothing changed',
      'nothing has changed',
      'rien change',
      'nichts geandert',
      'nada cambio',
      'no help',
      'did not help',
      'hasnt helped',
      'worse',
      'still there',
      'persist*',
      'remains',
      'nio',
      'n i o',
      'noch da',
      'immer noch da',
      'besteht weiter',
      'besteht noch',
      'schlechter',
      'pire',
      'toujours la',
      'toujours present',
      'persiste',
      'identique',
      'meme defaut',
      'peor',
      'sigue igual',
      'continua',
      'sigue fallando',
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
    done: [
      'regle',
      'reglee',
      'done',
      'replaced',
      'renewed',
      'fitted',
      'installed',
      'refitted',
      'tightened',
      'retightened',
      'cleaned',
      'resealed',
      'changed',
      'new part',
      'carried out',
      'completed',
      'swapped',
      'clamped',
      'adjusted',
      'bypassed',
      'erledigt',
      'ersetzt',
      'erneuert',
      'getauscht',
      'ausgetauscht',
      'gewechselt',
      'gereinigt',
      'abgedichtet',
      'eingebaut',
      'verbaut',
      'nachgezogen',
      'angezogen',
      'durchgefuhrt',
      'neu',
      'remplac*',
      'fait',
      'faite',
      'change',
      'changee',
      'changes',
      'nettoy*',
      'resserr*',
      'monte',
      'montee',
      'effectu*',
      'realise',
      'realisee',
      'neuf',
      'neuve',
      'cambiad*',
      'sustituid*',
      'reemplazad*',
      'hecho',
      'hecha',
      'limpiad*',
      'apretad*',
      'montad*',
      'instalad*',
      'realizad*',
      'nuevo',
      'nueva',
    ],
  },
  givesWay: 'done',
  no: 'not fixed',
  denied: { fixed: 'not fixed', 'not fixed': 'fixed' },
}

/** Whether the fault went with the part that was changed over. */
export const SWAPPED: OutcomeKind<'followed' | 'stayed'> = {
  phrases: {
    followed: [
      'mitwandert',
      'geht mit',
      'ging mit',
      'part avec',
      'parti avec',
      'se va con',
      'va con',
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
  'like the others',
  'as the others',
  'same as the others',
  'wie die anderen',
  'wie bei den anderen',
  'comme les autres',
  'como las demas',
  'como los demas',
  'como las otras',
  'parej*',
  'egaux',
  'en ordre',
  'juste*',
  'coinciden',
  'coincide',
  'richtig',
  'ok',
  'okay',
  'good',
  'fine',
  'normal',
  'in order',
  'in limits',
  'in spec',
  'within spec',
  'pass',
  'passed',
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
