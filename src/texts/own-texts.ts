import type { Texts } from './messages.ts'

/**
 * Sentences that stay as shipped: cautions, since nobody may be hurt by a sentence left out, and what the report declares
 * of itself, which has to say that others were changed.
 */
const KEPT = /^report\.(?:cautions|declaration|own-texts)\.|^report\.causes\.dangers$|^report\.withheld$/

export const isKept = (key: string): boolean => KEPT.test(key)

/** Texts with a shop's own sentences laid over them. */
export const withOwnTexts = (texts: Texts, own: Readonly<Record<string, string>>): Texts => {
  const differing = Object.entries(own).filter(([key, sentence]) => texts.templates[key] !== sentence)
  if (differing.length === 0) return texts
  return {
    language: texts.language,
    templates: { ...texts.templates, ...Object.fromEntries(differing) },
    own: differing.map(([key, sentence]) => ({ key, sentence, shipped: texts.templates[key]! })),
  }
}

/** The same without the shop's sentences that `holds` finds something in: these are said as shipped. */
export const withoutOwnTexts = (texts: Texts, holds: (sentence: string) => boolean): Texts => {
  const asShipped = (texts.own ?? []).filter(({ sentence }) => holds(sentence))
  if (asShipped.length === 0) return texts
  return {
    ...texts,
    templates: {
      ...texts.templates,
      ...Object.fromEntries(asShipped.map(({ key, shipped }) => [key, shipped])),
    },
  }
}
