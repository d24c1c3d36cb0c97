/** How many marks a saved specification draws, and how many of them a scale places: a row of data is a mark's item. */
export interface Placed {
  marks: number
  byScale: number
}

type Node = Record<string, unknown>
type Row = Record<string, unknown>

const VALUE_OF = /datum\.(\w+) === '([^']*)'/

const filtered = (rows: readonly Row[], transforms: readonly Node[] = []): readonly Row[] =>
  transforms.reduce((left, transform) => {
    const [, field, value] = VALUE_OF.exec(String(transform['expr'] ?? transform['filter'])) ?? []
    return field === undefined ? left : left.filter((row) => row[field] === value)
  }, rows)

/** Marks of a Vega-Lite or Vega specification. A position of a fixed value, or of a field taken as points, is placed by hand. */
export function placedMarks(spec: Node): Placed {
  return String(spec['$schema']).includes('vega-lite')
    ? ofLite(spec, { rows: [], encoding: {} })
    : ofVega(spec, new Map())
}

const sum = (all: readonly Placed[]): Placed =>
  all.reduce((a, b) => ({ marks: a.marks + b.marks, byScale: a.byScale + b.byScale }), {
    marks: 0,
    byScale: 0,
  })

function ofLite(node: Node, outer: { rows: readonly Row[]; encoding: Node }): Placed {
  const own = (node['data'] as { values?: Row[] } | undefined)?.values
  const rows = filtered(own ?? outer.rows, node['transform'] as Node[] | undefined)
  const encoding = { ...outer.encoding, ...(node['encoding'] as Node | undefined) }
  const inner = [
    ...((node['layer'] as Node[] | undefined) ?? []),
    ...(node['spec'] ? [node['spec'] as Node] : []),
  ]
  if (inner.length > 0) return sum(inner.map((each) => ofLite(each, { rows, encoding })))
  const byScale = (['x', 'y'] as const).some((channel) => {
    const { field, scale } = (encoding[channel] ?? {}) as { field?: string; scale?: unknown }
    return field !== undefined && scale !== null
  })
  return { marks: rows.length, byScale: byScale ? rows.length : 0 }
}

function ofVega(node: Node, outer: ReadonlyMap<string, readonly Row[]>): Placed {
  const data = new Map(outer)
  for (const { name, values, source, transform } of (node['data'] ?? []) as {
    name: string
    values?: Row[]
    source?: string
    transform?: Node[]
  }[])
    data.set(name, filtered(values ?? data.get(source ?? '') ?? [], transform))
  return sum(
    ((node['marks'] ?? []) as Node[]).map((mark) => {
      const from = mark['from'] as { data?: string; facet?: { data: string; name: string } } | undefined
      if (mark['type'] === 'group') {
        const { facet } = from ?? {}
        return ofVega(mark, facet ? new Map([...data, [facet.name, data.get(facet.data)!]]) : data)
      }
      const rows = from?.data === undefined ? 1 : data.get(from.data)!.length
      const sets = Object.values((mark['encode'] ?? {}) as Record<string, Record<string, { scale?: string }>>)
      const byScale = sets.some((set) => set['x']?.scale !== undefined || set['y']?.scale !== undefined)
      return { marks: rows, byScale: byScale ? rows : 0 }
    }),
  )
}
