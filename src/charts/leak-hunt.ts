import type { LeakHuntRecord, Result } from '../records/result.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import type { ChartPlan } from './chart-plan.ts'
import {
  drawingSpec,
  note,
  text,
  type BandRow,
  type RuleRow,
  type SymbolRow,
  type TextRow,
} from './drawing.ts'
import { ACCENT, FULL_WIDTH_PT, HAIR, INK, PAPER, QUIET, SMALL_PT, STRONG, TEXT_PT, WASH } from './theme.ts'
import { wrapText } from './wrap-text.ts'

type Place = LeakHuntRecord['places'][number]
type Seat = NonNullable<Place['seat']>
type Station = Seat['station']
type Hose = NonNullable<Seat['hose']>

const BOX_PT = 32
const MARK_PT = 11
const LINE_PT = 9
/** Rows of the drawing, from the hoses on top down to the cylinders. */
const Y = { hoses: 2, rail: 42, path: 52, manifold: 98, runner: 146, port: 172, cylinder: 198 }
const LIST_TOP_PT = 214
/** Where the hoses hang and the runners leave: right of the throttle. */
const PLENUM_LEFT_PT = 206
const SEAT_PT = 9

const HOSE_WORDS: Readonly<Record<Hose, WordKey>> = {
  vacuum: 'chart.hunt.hose-vacuum',
  breather: 'chart.hunt.hose-breather',
  'brake servo': 'chart.hunt.hose-brake-servo',
  purge: 'chart.hunt.hose-purge',
  'exhaust recirculation': 'chart.hunt.hose-recirculation',
}
const STATE_WORDS: Readonly<Record<Place['state'], WordKey>> = {
  answered: 'chart.hunt.state.answered',
  through: 'chart.hunt.state.through',
  disputed: 'chart.hunt.state.disputed',
  silent: 'chart.hunt.state.silent',
  capped: 'chart.hunt.state.capped',
  unclear: 'chart.hunt.state.unclear',
}
const PATH_WORDS = {
  meter: 'chart.hunt.meter',
  duct: 'chart.hunt.duct',
  throttle: 'chart.hunt.throttle',
  plenum: 'chart.hunt.plenum',
} as const

/** A seat of the drawing: its box, its words, and the marks that stand in it. */
interface Cell {
  seat: Seat
  left: number
  top: number
  width: number
  height: number
  words: readonly string[]
}

interface Picture {
  bands: BandRow[]
  rules: RuleRow[]
  symbols: SymbolRow[]
  texts: TextRow[]
}

/**
 * The hunt as a plain drawing: the intake path in boxes and lines, a numbered mark where a place was tried, dashed where
 * none was, and the list of the numbers below. Filled where the engine answered, hollow where it stayed silent, square
 * for the rest.
 */
export function leakHuntChart(
  hunt: LeakHuntRecord,
  engine: Result['job']['engine'],
  texts: Texts,
): ChartPlan {
  const cells = [
    ...hoseCells(texts),
    ...pathCells(texts),
    ...manifoldCells(engine, texts),
    ...ownCells(engine),
  ]
  const picture: Picture = {
    bands: [],
    rules: [...lines(cells)],
    symbols: [],
    texts: rowWords(engine, texts),
  }
  for (const cell of cells) drawCell(picture, cell, hunt, texts)
  const list = placeList(hunt, texts)
  picture.symbols.push(...list.symbols)
  picture.texts.push(...list.texts)
  const heightPt = LIST_TOP_PT + list.heightPt
  return {
    id: 'leak-hunt',
    spec: drawingSpec({ widthPt: FULL_WIDTH_PT, heightPt, paths: [], ...picture }),
    place: 'tests',
    title: say(texts, 'chart.hunt.title'),
    alt: say(texts, 'chart.hunt.alt', {
      places: hunt.places
        .map(({ place, state }) =>
          say(texts, 'chart.hunt.alt-place', { place, state: say(texts, STATE_WORDS[state]) }),
        )
        .join(' '),
      untried: hunt.untried.length,
    }),
    widthPt: FULL_WIDTH_PT,
    heightPt,
  }
}

const seatAt = (station: Station, more: Partial<Seat> = {}): Seat => ({
  station,
  hose: null,
  bank: null,
  cylinder: null,
  ...more,
})

/** Boxes of equal width side by side. */
function row<T>(items: readonly T[], span: { left: number; right: number; gap: number }) {
  const width = (span.right - span.left - span.gap * (items.length - 1)) / items.length
  return items.map((item, i) => ({ item, left: span.left + i * (width + span.gap), width }))
}

const hoseCells = (texts: Texts): Cell[] =>
  row(Object.keys(HOSE_WORDS) as Hose[], { left: PLENUM_LEFT_PT, right: FULL_WIDTH_PT - 1, gap: 4 }).map(
    ({ item: hose, left, width }) => ({
      seat: seatAt('hose', { hose }),
      left,
      width,
      top: Y.hoses,
      height: BOX_PT,
      words: wrapText(say(texts, HOSE_WORDS[hose]), width - 2, { sizePt: SMALL_PT }),
    }),
  )

function pathCells(texts: Texts): Cell[] {
  const cell = (station: keyof typeof PATH_WORDS, left: number, width: number): Cell => ({
    seat: seatAt(station),
    left,
    width,
    top: Y.path,
    height: BOX_PT,
    words: [say(texts, PATH_WORDS[station])],
  })
  return [
    ...row(['meter', 'duct', 'throttle'] as const, { left: 1, right: PLENUM_LEFT_PT - 12, gap: 12 }).map(
      ({ item, left, width }) => cell(item, left, width),
    ),
    cell('plenum', PLENUM_LEFT_PT, FULL_WIDTH_PT - PLENUM_LEFT_PT - 1),
  ]
}

const banksOf = ({ banks }: Result['job']['engine']): readonly (string | null)[] =>
  banks ? Object.keys(banks) : [null]

const manifoldCells = (engine: Result['job']['engine'], texts: Texts): Cell[] =>
  row(banksOf(engine), { left: PLENUM_LEFT_PT, right: FULL_WIDTH_PT - 1, gap: 8 }).map(
    ({ item: bank, left, width }) => ({
      seat: seatAt('manifold', { bank }),
      left,
      width,
      top: Y.manifold,
      height: BOX_PT,
      words: [
        bank === null ? say(texts, 'chart.hunt.manifold') : say(texts, 'chart.hunt.manifold-bank', { bank }),
      ],
    }),
  )

/** Cylinders in the order they are drawn: bank by bank, so that a runner leaves its own gasket. */
const columnsOf = (engine: Result['job']['engine']) =>
  row(banksOf(engine), { left: PLENUM_LEFT_PT, right: FULL_WIDTH_PT - 1, gap: 8 }).flatMap(
    ({ item: bank, left, width }) => {
      const cylinders =
        bank === null ? Array.from({ length: engine.cylinders }, (_, i) => i + 1) : engine.banks![bank]!
      return row(cylinders, { left, right: left + width, gap: 0 }).map((column) => ({
        cylinder: column.item,
        bank,
        middle: column.left + column.width / 2,
      }))
    },
  )

/** Runner joint and injector seal of each cylinder: small squares, their words once at the left. */
const ownCells = (engine: Result['job']['engine']): Cell[] =>
  columnsOf(engine).flatMap(({ cylinder, bank, middle }) =>
    (['runner', 'port'] as const).map((station) => ({
      seat: seatAt(station, { cylinder, bank }),
      left: middle - SEAT_PT / 2,
      width: SEAT_PT,
      top: Y[station],
      height: SEAT_PT,
      words: [],
    })),
  )

function rowWords(engine: Result['job']['engine'], texts: Texts): TextRow[] {
  const at = (key: WordKey, y: number) =>
    note('row', say(texts, key), { x: PLENUM_LEFT_PT - 8, y, align: 'right', fill: QUIET })
  return [
    at('chart.hunt.runners', Y.runner + SEAT_PT / 2),
    at('chart.hunt.ports', Y.port + SEAT_PT / 2),
    at('chart.hunt.valves', Y.cylinder),
    ...columnsOf(engine).map(({ cylinder, middle }) =>
      text('cylinder', String(cylinder), { x: middle, y: Y.cylinder, align: 'center', weight: STRONG }),
    ),
    note('untried', say(texts, 'chart.hunt.untried'), { x: 1, y: Y.cylinder, fill: QUIET }),
  ]
}

const rule = (from: readonly [number, number], to: readonly [number, number]): RuleRow => ({
  role: 'path',
  x: from[0],
  y: from[1],
  x2: to[0],
  y2: to[1],
  stroke: QUIET,
  width: 1,
  dash: [],
})

/** The way of the air: along the path, down from the hoses, down through gasket and runners to the valves. */
function lines(cells: readonly Cell[]): RuleRow[] {
  const of = (station: Station) => cells.filter(({ seat }) => seat.station === station)
  const middle = ({ left, width }: Cell) => left + width / 2
  const along = ['meter', 'duct', 'throttle', 'plenum'].flatMap((station) => of(station as Station))
  const hoses = of('hose')
  return [
    ...along
      .slice(1)
      .map((cell, i) =>
        rule([along[i]!.left + along[i]!.width, Y.path + BOX_PT / 2], [cell.left, Y.path + BOX_PT / 2]),
      ),
    rule([middle(hoses[0]!), Y.rail], [middle(hoses.at(-1)!), Y.rail]),
    ...hoses.map((cell) => rule([middle(cell), Y.hoses + BOX_PT], [middle(cell), Y.rail])),
    rule([middle(hoses[2]!), Y.rail], [middle(hoses[2]!), Y.path]),
    ...of('manifold').map((cell) => rule([middle(cell), Y.path + BOX_PT], [middle(cell), Y.manifold])),
    ...of('runner').flatMap((cell) => [
      rule([middle(cell), Y.manifold + BOX_PT], [middle(cell), Y.runner]),
      rule([middle(cell), Y.runner + SEAT_PT], [middle(cell), Y.port]),
      rule([middle(cell), Y.port + SEAT_PT], [middle(cell), Y.cylinder - 6]),
    ]),
  ]
}

/** Whether a place of the log lies at this seat of the drawing; words that leave the bank or hose open lie at each. */
const lies = (place: Seat | null, seat: Seat): boolean =>
  place !== null &&
  place.station === seat.station &&
  (place.hose === null || place.hose === seat.hose) &&
  (place.bank === null || seat.bank === null || place.bank === seat.bank) &&
  (place.cylinder === null || place.cylinder === seat.cylinder)

function drawCell(picture: Picture, cell: Cell, hunt: LeakHuntRecord, texts: Texts): void {
  const { left, top, width, height, words, seat } = cell
  const here = hunt.places.flatMap((place, i) => (lies(place.seat, seat) ? [{ place, number: i + 1 }] : []))
  const answered = here.some(({ place }) => place.state === 'answered')
  const tried = here.some(({ place }) => place.state !== 'unclear')
  picture.bands.push({
    role: 'seat',
    x: left,
    y: top,
    x2: left + width,
    y2: top + height,
    fill: answered ? WASH : PAPER,
  })
  picture.rules.push(
    ...frame(cell, {
      stroke: answered ? ACCENT : tried ? INK : QUIET,
      width: answered ? 1.6 : 0.8,
      dash: tried ? [] : [2, 2],
    }),
  )
  const small = words.length === 0
  words.forEach((line, i) =>
    picture.texts.push(
      note('seat', line, { x: left + width / 2, y: top + 7 + i * (LINE_PT - 1.5), align: 'center' }),
    ),
  )
  const isNext = hunt.next !== null && lies(hunt.next.seat, seat)
  const marks = here.length
  const middle = left + width / 2
  here.forEach(({ place, number }, i) => {
    const x = middle + (i - (marks - 1) / 2) * (MARK_PT + 1)
    const y = small ? top + height / 2 : top + height - MARK_PT / 2 - 2
    drawMark(picture, { number, state: place.state, x, y })
  })
  if (!isNext) return
  if (small) picture.symbols.push(arrow(left - 5, top + height / 2))
  else {
    picture.symbols.push(arrow(left + 6, top + height - 8))
    if (marks === 0)
      picture.texts.push(
        note('next', say(texts, 'chart.hunt.next'), {
          x: left + 12,
          y: top + height - 8,
          fill: ACCENT,
          weight: STRONG,
        }),
      )
  }
}

const arrow = (x: number, y: number): SymbolRow => ({
  role: 'next',
  x,
  y,
  shape: 'triangle-right',
  size: 34,
  fill: ACCENT,
  stroke: ACCENT,
})

function frame(
  { left, top, width, height }: Cell,
  look: Pick<RuleRow, 'stroke' | 'width' | 'dash'>,
): RuleRow[] {
  const side = (x: number, y: number, x2: number, y2: number): RuleRow => ({
    role: 'seat',
    x,
    y,
    x2,
    y2,
    ...look,
  })
  const [right, bottom] = [left + width, top + height]
  return [
    side(left, top, right, top),
    side(left, bottom, right, bottom),
    side(left, top, left, bottom),
    side(right, top, right, bottom),
  ]
}

const LOOKS: Readonly<Record<Place['state'], { shape: string; fill: string; ink: string }>> = {
  answered: { shape: 'circle', fill: ACCENT, ink: PAPER },
  through: { shape: 'square', fill: PAPER, ink: INK },
  disputed: { shape: 'square', fill: PAPER, ink: INK },
  silent: { shape: 'circle', fill: PAPER, ink: INK },
  capped: { shape: 'square', fill: HAIR, ink: INK },
  unclear: { shape: 'square', fill: PAPER, ink: QUIET },
}

function drawMark(
  picture: Pick<Picture, 'symbols' | 'texts'>,
  at: { number: number; state: Place['state']; x: number; y: number },
): void {
  const { shape, fill, ink } = LOOKS[at.state]
  picture.symbols.push({
    role: 'place',
    x: at.x,
    y: at.y,
    shape,
    size: MARK_PT ** 2,
    fill,
    stroke: fill === ACCENT ? ACCENT : INK,
  })
  picture.texts.push(
    note('place', String(at.number), { x: at.x, y: at.y, align: 'center', fill: ink, weight: STRONG }),
  )
}

const ENTRY_GAP_PT = 3
const COLUMN_GAP_PT = 14

/** The numbers in words: place, what came of it, the tests. Two columns, read down. */
function placeList(hunt: LeakHuntRecord, texts: Texts) {
  const list: Pick<Picture, 'symbols' | 'texts'> & { heightPt: number } = {
    symbols: [],
    texts: [],
    heightPt: 0,
  }
  const columns = hunt.places.length > 1 ? 2 : 1
  const width = (FULL_WIDTH_PT - (columns - 1) * COLUMN_GAP_PT) / columns
  const perColumn = Math.ceil(hunt.places.length / columns)
  for (let column = 0; column < columns; column++) {
    let y = LIST_TOP_PT
    hunt.places.slice(column * perColumn, (column + 1) * perColumn).forEach((place, i) => {
      const x = column * (width + COLUMN_GAP_PT)
      const lines = wrapText(entryWords(place, texts), width - MARK_PT - 5, { sizePt: TEXT_PT })
      drawMark(list, {
        number: column * perColumn + i + 1,
        state: place.state,
        x: x + MARK_PT / 2 + 1,
        y: y + MARK_PT / 2 + 1,
      })
      list.texts.push(
        ...lines.map((line, k) =>
          text('place-name', line, { x: x + MARK_PT + 5, y: y + MARK_PT / 2 + 1 + (LINE_PT + 1) * k }),
        ),
      )
      y += Math.max((LINE_PT + 1) * lines.length, MARK_PT) + ENTRY_GAP_PT
    })
    list.heightPt = Math.max(list.heightPt, y - LIST_TOP_PT)
  }
  return list
}

const AFTER_WORDS = { answered: 'chart.hunt.state.answered', silent: 'chart.hunt.state.silent' } as const

function entryWords({ place, state, tests, after }: Place, texts: Texts): string {
  const entry = say(texts, 'chart.hunt.entry', {
    place,
    state: say(texts, STATE_WORDS[state]),
    tests: tests.join(', '),
  })
  return after === null
    ? entry
    : say(texts, 'chart.hunt.entry-after', { entry, after: say(texts, AFTER_WORDS[after]) })
}
