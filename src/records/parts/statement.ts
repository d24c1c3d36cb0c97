import type { Says } from '../../test-log/findings.ts'
import type { Arg, Texts } from '../../texts/messages.ts'
import { sayLoose } from '../../texts/say.ts'
import { whereWords } from '../../texts/where-words.ts'
import { toDigits } from '../round.ts'
import type { Statement } from '../result.ts'

/**
 * A sentence for the record: its key and arguments as data, and its words in the report's language. An argument that is
 * a key of words (`gate.…`, `report.absent.…`) is kept as that key and said in words, and so is a word of the contract.
 */
export function statement(texts: Texts, { key, args }: Says): Statement {
  const kept = Object.fromEntries(
    Object.entries(args).map(([name, arg]) => [
      name,
      typeof arg === 'string'
        ? arg
        : typeof arg === 'number'
          ? toDigits(arg)
          : { value: toDigits(arg.value), low: toDigits(arg.low), high: toDigits(arg.high), unit: arg.unit },
    ]),
  )
  const said = Object.fromEntries(
    Object.entries(args).map(([name, arg]) => [
      name,
      inWords(texts, arg, WORDS.find((w) => w.of.test(key) && w.args.includes(name))?.list),
    ]),
  )
  return { key, args: kept, text: sayLoose(texts, key, withWhere(texts, said)) }
}

/** A finding's arguments with the words of where it lies, made from them. */
function withWhere(texts: Texts, said: Readonly<Record<string, Arg>>): Readonly<Record<string, Arg>> {
  return typeof said['scope'] === 'string' ? { ...said, where: whereWords(texts, said) } : said
}

const KEY_OF_WORDS = /^(gate|report\.absent)\.[a-z-]+$/

/** Arguments that are one of the contract's words, and the texts that say them in the reader's language. */
const WORDS: readonly { of: RegExp; args: readonly string[]; list: string }[] = [
  { of: /^(headline|page)\.cause\./, args: ['cause'], list: 'cause' },
  { of: /^pattern\.cylinder$/, args: ['verdict'], list: 'chart.verdict' },
  { of: /^tests\.fuel-pressure\./, args: ['reading'], list: 'report.reading' },
  { of: /^tests\.code\.not-listed$/, args: ['system'], list: 'word.code-system' },
  { of: /^method\.find/, args: ['polarity'], list: 'word.polarity' },
  { of: /^conditions\.condition$/, args: ['before', 'after'], list: 'chart.condition' },
  { of: /^conditions\.engine$/, args: ['before', 'after'], list: 'word.engine' },
]

/** Words that stand beside each other in one argument. */
const BESIDE = ' / '

function inWords(texts: Texts, arg: Arg, list: string | undefined): Arg {
  if (typeof arg !== 'string') return arg
  if (list !== undefined)
    return arg
      .split(BESIDE)
      .map((word) => texts.templates[`${list}.${word.replaceAll(' ', '-')}`] ?? word)
      .join(BESIDE)
  return KEY_OF_WORDS.test(arg) && Object.hasOwn(texts.templates, arg) ? sayLoose(texts, arg) : arg
}
