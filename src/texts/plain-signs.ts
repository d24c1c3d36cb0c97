import type { Texts } from './messages.ts'

/** Signs of print as those every pipe, log and old terminal shows; letters stay. */
const PLAIN_SIGNS: Readonly<Record<string, string>> = {
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '‘': "'",
  '’': "'",
  '…': '...',
  '–': '-',
  '—': '-',
  '\u2212': '-',
  '\u00a0': ' ',
  '\u202f': ' ',
  '\u2009': ' ',
  '×': 'x',
  µ: 'u',
  μ: 'u',
  '²': '2',
  '±': '+-',
}
const SIGNS = new RegExp(`[${Object.keys(PLAIN_SIGNS).join('')}]`, 'gu')

export const withPlainSigns = (text: string): string => text.replace(SIGNS, (sign) => PLAIN_SIGNS[sign]!)

/** Texts whose own signs are plain; names and words of the job that are put into them stay as they are. */
export const plainTexts = (texts: Texts): Texts => ({
  ...texts,
  plain: true,
  templates: Object.fromEntries(
    Object.entries(texts.templates).map(([key, text]) => [key, withPlainSigns(text)]),
  ),
})
