/** Red, green, blue and opacity, each 0..1. */
export interface Rgba {
  r: number
  g: number
  b: number
  a: number
}

const NAMED: Readonly<Record<string, string>> = {
  black: '#000000',
  white: '#ffffff',
  transparent: '#00000000',
  none: '#00000000',
}

/**
 * A CSS colour: #rgb, #rrggbb, #rrggbbaa, rgb(), rgba(), and the few names that charts use.
 * @throws Error for any other: a colour guessed wrong would pass unseen
 */
export function parseColor(css: string): Rgba {
  const text = NAMED[css] ?? css
  const hex = text.match(/^#([0-9a-f]{3}|[0-9a-f]{6}|[0-9a-f]{8})$/i)?.[1]
  if (hex) {
    const full = hex.length === 3 ? hex.replace(/./g, '$&$&') : hex
    const part = (at: number) => parseInt(full.slice(at, at + 2), 16) / 255
    return { r: part(0), g: part(2), b: part(4), a: full.length === 8 ? part(6) : 1 }
  }
  const parts = text
    .match(/^rgba?\(\s*([\d.]+)[,\s]+([\d.]+)[,\s]+([\d.]+)(?:[,/\s]+([\d.]+))?\s*\)$/)
    ?.slice(1)
  if (!parts) throw new Error(`colour '${css}' is not one that can be drawn`)
  const [r, g, b, a] = parts.map((part) => (part === undefined ? undefined : Number(part)))
  return { r: r! / 255, g: g! / 255, b: b! / 255, a: a ?? 1 }
}
