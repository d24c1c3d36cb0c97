/** Font units by which the first of two glyphs moves the second; 0 for most pairs. */
export type Kerning = (left: number, right: number) => number

/** Lookup types of GPOS that are read. */
const PAIRS = 2
const EXTENSION = 9
/** Value formats: nothing, or the advance alone. */
const NOTHING = 0
const ADVANCE = 4

/**
 * Kerning by pairs of glyphs, from the GPOS table as it lies in the file.
 *
 * @source OpenType 1.9.1, GPOS: feature `kern`, lookup type 2, formats 1 (pairs) and 2 (classes), also by extension
 * @throws Error for kerning of another kind, or that depends on the script: the faces in use have neither
 */
export function readKerning(view: DataView, gpos: number): Kerning {
  const tables = pairTables(view, gpos).map((at) =>
    view.getUint16(at) === 1 ? pairTable(view, at) : classTable(view, at),
  )
  return (left, right) => {
    for (const kernIn of tables) {
      const kern = kernIn(left, right)
      if (kern !== undefined) return kern
    }
    return 0
  }
}

/** Kerning of one table; undefined where it says nothing of the pair and the next table is asked. */
type PartOfKerning = (left: number, right: number) => number | undefined

function pairTables(view: DataView, gpos: number): number[] {
  const [features, lookups] = [gpos + view.getUint16(gpos + 6), gpos + view.getUint16(gpos + 8)]
  const kernAt = new Set(
    listOf(view, features, { size: 6, field: 4 })
      .filter((_, i) => view.getUint32(features + 2 + 6 * i) === KERN)
      .map((at) => features + at),
  )
  const named = new Set([...kernAt].map((at) => listOf(view, at + 2, { size: 2, field: 0 }).join()))
  if (named.size !== 1) throw new Error('font: kerning that hangs on the script')
  return [...named][0]!.split(',').flatMap((index) => {
    const lookup = lookups + view.getUint16(lookups + 2 + 2 * Number(index))
    return listOf(view, lookup + 4, { size: 2, field: 0 }).map((offset) =>
      pairTableAt(view, lookup + offset, view.getUint16(lookup)),
    )
  })
}

const KERN = 0x6b65726e

/** 16-bit fields of a list that begins with its length. */
const listOf = (view: DataView, at: number, { size, field }: { size: number; field: number }): number[] =>
  Array.from({ length: view.getUint16(at) }, (_, i) => view.getUint16(at + 2 + size * i + field))

function pairTableAt(view: DataView, at: number, type: number): number {
  if (type === EXTENSION) return pairTableAt(view, at + view.getUint32(at + 4), view.getUint16(at + 2))
  const secondMoves = view.getUint16(at + 6) !== NOTHING
  if (type !== PAIRS || view.getUint16(at + 4) !== ADVANCE || secondMoves)
    throw new Error('font: kerning that is no advance of pairs')
  return at
}

/** Format 1: a list of second glyphs for each first glyph. */
function pairTable(view: DataView, at: number): PartOfKerning {
  const firsts = coverage(view, at + view.getUint16(at + 2))
  return (left, right) => {
    const index = firsts.get(left)
    if (index === undefined) return undefined
    const set = at + view.getUint16(at + 10 + 2 * index)
    for (let i = 0; i < view.getUint16(set); i++) {
      if (view.getUint16(set + 2 + 4 * i) === right) return view.getInt16(set + 4 + 4 * i)
    }
    return undefined
  }
}

/** Format 2: a value for each class of first glyphs with each class of second ones. It answers for all glyphs it covers. */
function classTable(view: DataView, at: number): PartOfKerning {
  const firsts = coverage(view, at + view.getUint16(at + 2))
  const [leftClass, rightClass] = [
    classes(view, at + view.getUint16(at + 8)),
    classes(view, at + view.getUint16(at + 10)),
  ]
  const rightClasses = view.getUint16(at + 14)
  return (left, right) =>
    firsts.has(left)
      ? view.getInt16(
          at + 16 + 2 * ((leftClass.get(left) ?? 0) * rightClasses + (rightClass.get(right) ?? 0)),
        )
      : undefined
}

/** Glyphs a table speaks of, and the index of each. */
function coverage(view: DataView, at: number): Map<number, number> {
  const index = new Map<number, number>()
  const count = view.getUint16(at + 2)
  for (let i = 0; i < count; i++) {
    if (view.getUint16(at) === 1) index.set(view.getUint16(at + 4 + 2 * i), i)
    else addRange(view, at + 4 + 6 * i, (glyph, from, value) => index.set(glyph, value + glyph - from))
  }
  return index
}

/** Class of each glyph that is not of class 0. */
function classes(view: DataView, at: number): Map<number, number> {
  const classOf = new Map<number, number>()
  if (view.getUint16(at) === 1) {
    const first = view.getUint16(at + 2)
    listOf(view, at + 4, { size: 2, field: 0 }).forEach((value, i) => classOf.set(first + i, value))
  } else {
    for (let i = 0; i < view.getUint16(at + 2); i++)
      addRange(view, at + 4 + 6 * i, (glyph, _, value) => classOf.set(glyph, value))
  }
  return classOf
}

/** A record of first glyph, last glyph and a value. */
function addRange(
  view: DataView,
  at: number,
  add: (glyph: number, from: number, value: number) => void,
): void {
  const [from, to, value] = [view.getUint16(at), view.getUint16(at + 2), view.getUint16(at + 4)]
  for (let glyph = from; glyph <= to; glyph++) add(glyph, from, value)
}
