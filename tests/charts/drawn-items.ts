import type { View } from 'vega'

interface Bounds {
  x1: number
  y1: number
  x2: number
  y2: number
}
interface Item {
  x?: number
  y?: number
  text?: unknown
  bounds: Bounds
  items?: (Item | Mark)[]
  marktype?: string
  opacity?: number
  limit?: number
  fontSize?: number
}
interface Mark {
  marktype: string
  role: string
  items: Item[]
}

/** A text with the most width it is drawn in, where it has one. */
export interface DrawnText extends Bounds {
  text: string
  sizePt: number
  limit?: number
}

function walk(mark: Mark, at: { x: number; y: number }, found: DrawnText[]): void {
  for (const item of mark.items) {
    if (mark.marktype === 'group') {
      const inner = { x: at.x + (item.x ?? 0), y: at.y + (item.y ?? 0) }
      for (const child of (item.items ?? []) as Mark[]) walk(child, inner, found)
    } else if (mark.marktype === 'text' && String(item.text ?? '') !== '') {
      const { x1, y1, x2, y2 } = item.bounds
      found.push({
        text: String(item.text),
        sizePt: item.fontSize ?? 11,
        ...(item.limit === undefined ? {} : { limit: item.limit }),
        x1: x1 + at.x,
        x2: x2 + at.x,
        y1: y1 + at.y,
        y2: y2 + at.y,
      })
    }
  }
}

/** Every text of a laid-out chart with its bounds in pt from the chart's top left corner, axes, headings and padding included. */
export function drawnTexts(view: View): DrawnText[] {
  const { left, top } = view.padding() as unknown as { left: number; top: number }
  const [originX, originY] = (view as unknown as { _origin: [number, number] })._origin
  const found: DrawnText[] = []
  walk((view.scenegraph() as unknown as { root: Mark }).root, { x: left + originX, y: top + originY }, found)
  return found
}

/** Pairs of texts that cover each other by more than a hair on both axes. Line boxes are taller than letters: 1.6 pt is let pass. */
export function collisions(texts: readonly DrawnText[]): string[] {
  const overlap = (a1: number, a2: number, b1: number, b2: number) => Math.min(a2, b2) - Math.max(a1, b1)
  return texts.flatMap((a, i) =>
    texts
      .slice(i + 1)
      .filter((b) => overlap(a.x1, a.x2, b.x1, b.x2) > 0.2 && overlap(a.y1, a.y2, b.y1, b.y2) > 1.6)
      .map((b) => `${a.text} / ${b.text}`),
  )
}
