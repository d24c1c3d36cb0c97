/** Formats a placeholder may ask for, see format-quantity.ts; `whole` lets a sentence within another keep its full stop. */
const FORMAT = /^(?:d\d|value|signed|bare|interval|whole)$/

/** A placeholder: {name}, {name:format}, or {.} for a full stop that only stands where the sentence stands alone. */
const PLACEHOLDER = /\{(\w+|\.)(?::([\w.]+))?\}/g

/** How a sentence differs from the one in whose place it stands, in what is put into it. */
export interface Misfit {
  /** Placeholders of the other that it lacks. */
  lacks: readonly string[]
  /** What it has in braces that the other does not know, or that is no placeholder at all. */
  unknown: readonly string[]
}

/** What keeps a sentence from standing in for `shipped`; undefined where the same can be put into both. */
export function misfit(own: string, shipped: string): Misfit | undefined {
  const known = new Set(namesIn(shipped))
  const names = new Set(namesIn(own))
  const lacks = [...known].filter((name) => !names.has(name)).map(inBraces)
  const unknown = [...[...names].filter((name) => !known.has(name)).map(inBraces), ...strayIn(own, shipped)]
  return lacks.length + unknown.length === 0 ? undefined : { lacks, unknown }
}

const namesIn = (text: string): string[] => [...text.matchAll(PLACEHOLDER)].map(([, name]) => name!)

const inBraces = (name: string): string => `{${name}}`

/** Braces and formats that nothing can be put into; those of an example that the other shows as well are words. */
const strayIn = (own: string, shipped: string): string[] => {
  const known = new Set(bracesIn(shipped))
  return [
    ...[...own.matchAll(PLACEHOLDER)]
      .filter(([, , format]) => format !== undefined && !FORMAT.test(format))
      .map(([whole]) => whole),
    ...bracesIn(own).filter((brace) => !known.has(brace)),
  ]
}

const bracesIn = (text: string): string[] => text.replaceAll(PLACEHOLDER, '').match(/\{[^{}]*\}?|\}/g) ?? []
