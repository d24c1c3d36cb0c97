import svgpath from 'svgpath'

/** One step of an outline in absolute coordinates: M and L hold one point, C three, Z none. */
export type PathStep =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z']

/** What the package keeps beside its typed members: its first error, and what was read before it. */
interface Read {
  err: string
  segments: readonly unknown[]
}

/**
 * The steps of a path's `d`, or undefined where it does not follow the grammar.
 * @source SVG 1.1 (second edition), 8.3 Path data
 */
export function readSvgPath(d: string): PathStep[] | undefined {
  const path = svgpath(d) as ReturnType<typeof svgpath> & Read
  if (path.err !== '' || path.segments.length === 0) return undefined
  const steps: PathStep[] = []
  path
    .abs()
    .unarc()
    .unshort()
    .iterate(([command, ...numbers], _, x, y) => {
      steps.push(stepOf(command, numbers, { x, y }))
    })
  return steps.flat().every((part) => typeof part === 'string' || Number.isFinite(part)) ? steps : undefined
}

/** @param pen  where the step begins */
function stepOf(command: string, n: readonly number[], { x, y }: { x: number; y: number }): PathStep {
  const third = (from: number, to: number): number => from + (2 / 3) * (to - from)
  switch (command) {
    case 'Z':
    case 'z':
      return ['Z']
    case 'M':
      return ['M', n[0]!, n[1]!]
    case 'L':
      return ['L', n[0]!, n[1]!]
    case 'H':
      return ['L', n[0]!, y]
    case 'V':
      return ['L', x, n[0]!]
    case 'C':
      return ['C', n[0]!, n[1]!, n[2]!, n[3]!, n[4]!, n[5]!]
    case 'Q':
      return ['C', third(x, n[0]!), third(y, n[1]!), third(n[2]!, n[0]!), third(n[3]!, n[1]!), n[2]!, n[3]!]
    default:
      throw new Error(`a path step ${command} that is neither short nor an arc any more`)
  }
}
