import type { Spec } from 'vega'
import type { LeakHuntRecord, Result } from '../records/result.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { VEGA_SCHEMA, type ChartPlan } from './chart-plan.ts'
import {
  ACCENT,
  FULL_WIDTH_PT,
  HAIR,
  INK,
  PAPER,
  QUIET,
  SMALL_PT,
  STRONG,
  TEXT_PT,
  VEGA_CONFIG,
  WASH,
} from './theme.ts'
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

/** Rows of the drawing's tables: where each stands, pt from the top left corner, and what it is; its look follows from that. */
interface Picture {
  seats: { x: number; y: number; x2: number; y2: number; kind: SeatKind }[]
  ways: { x: number; y: number; x2: number; y2: number }[]
  places: { x: number; y: number; number: number; state: Place['state'] }[]
  next: { x: number; y: number }[]
  words: Words[]
}

interface Words {
  x: number
  y: number
  words: string
  kind: WordKind
  align: 'left' | 'center' | 'right'
}

/** How a seat is framed: dashed where nothing was tried, heavy where the engine answered. */
const SEATS = {
  answered: { fill: WASH, stroke: ACCENT, width: 1.6, dash: [1, 0] },
  tried: { fill: PAPER, stroke: INK, width: 0.8, dash: [1, 0] },
  untried: { fill: PAPER, stroke: QUIET, width: 0.8, dash: [2, 2] },
} as const
type SeatKind = keyof typeof SEATS

const WORDS = {
  row: { fill: QUIET, size: SMALL_PT, weight: 400 },
  seat: { fill: INK, size: SMALL_PT, weight: 400 },
  next: { fill: ACCENT, size: SMALL_PT, weight: STRONG },
  cylinder: { fill: INK, size: TEXT_PT, weight: STRONG },
  place: { fill: INK, size: TEXT_PT, weight: 400 },
} as const
type WordKind = keyof typeof WORDS

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
    seats: [],
    ways: lines(cells),
    places: [],
    next: [],
    words: rowWords(engine, texts),
  }
  for (const cell of cells) drawCell(picture, cell, hunt, texts)
  const list = placeList(hunt, texts)
  picture.places.push(...list.places)
  picture.words.push(...list.words)
  const heightPt = LIST_TOP_PT + list.heightPt
  return {
    id: 'leak-hunt',
    spec: schematic(picture, heightPt),
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

/** The tables as a Vega spec: what a thing is gives its look by scales, where it stands its place on the sheet. */
function schematic({ seats, ways, places, next, words }: Picture, heightPt: number): Spec {
  const span = (name: string, end: number) => ({ name, type: 'linear', domain: [0, end], range: [0, end] })
  const looks = <T extends object>(name: string, of: T, pick: (look: T[keyof T]) => unknown) => ({
    name,
    type: 'ordinal',
    domain: Object.keys(of),
    range: (Object.values(of) as T[keyof T][]).map(pick),
  })
  const at = { x: { scale: 'x', field: 'x' }, y: { scale: 'y', field: 'y' } }
  const to = { ...at, x2: { scale: 'x', field: 'x2' }, y2: { scale: 'y', field: 'y2' } }
  const by = (scale: string, field: string) => ({ scale, field })
  const spec = {
    $schema: VEGA_SCHEMA,
    config: VEGA_CONFIG,
    autosize: 'none',
    padding: 0,
    width: FULL_WIDTH_PT,
    height: heightPt,
    data: [
      { name: 'seats', values: seats },
      { name: 'ways', values: ways },
      { name: 'places', values: places },
      { name: 'next', values: next },
      { name: 'words', values: words },
    ],
    scales: [
      span('x', FULL_WIDTH_PT),
      span('y', heightPt),
      looks('seatFill', SEATS, ({ fill }) => fill),
      looks('seatStroke', SEATS, ({ stroke }) => stroke),
      looks('seatWidth', SEATS, ({ width }) => width),
      looks('seatDash', SEATS, ({ dash }) => dash),
      looks('shape', LOOKS, ({ shape }) => shape),
      looks('fill', LOOKS, ({ fill }) => fill),
      looks('edge', LOOKS, ({ fill }) => (fill === ACCENT ? ACCENT : INK)),
      looks('ink', LOOKS, ({ ink }) => ink),
      looks('wordFill', WORDS, ({ fill }) => fill),
      looks('wordSize', WORDS, ({ size }) => size),
      looks('wordWeight', WORDS, ({ weight }) => weight),
    ],
    marks: [
      {
        type: 'rule',
        from: { data: 'ways' },
        encode: { enter: { ...to, stroke: { value: QUIET }, strokeWidth: { value: 1 } } },
      },
      {
        type: 'rect',
        from: { data: 'seats' },
        encode: {
          enter: {
            ...to,
            fill: by('seatFill', 'kind'),
            stroke: by('seatStroke', 'kind'),
            strokeWidth: by('seatWidth', 'kind'),
            strokeDash: by('seatDash', 'kind'),
          },
        },
      },
      {
        type: 'symbol',
        from: { data: 'next' },
        encode: {
          enter: { ...at, shape: { value: 'triangle-right' }, size: { value: 34 }, fill: { value: ACCENT } },
        },
      },
      {
        type: 'symbol',
        from: { data: 'places' },
        encode: {
          enter: {
            ...at,
            size: { value: MARK_PT ** 2 },
            shape: by('shape', 'state'),
            fill: by('fill', 'state'),
            stroke: by('edge', 'state'),
            strokeWidth: { value: 0.8 },
          },
        },
      },
      {
        type: 'text',
        from: { data: 'places' },
        encode: {
          enter: {
            ...at,
            text: { field: 'number' },
            fill: by('ink', 'state'),
            align: { value: 'center' },
            baseline: { value: 'middle' },
            fontSize: { value: SMALL_PT },
            fontWeight: { value: STRONG },
          },
        },
      },
      {
        type: 'text',
        from: { data: 'words' },
        encode: {
          enter: {
            ...at,
            text: { field: 'words' },
            align: { field: 'align' },
            baseline: { value: 'middle' },
            fill: by('wordFill', 'kind'),
            fontSize: by('wordSize', 'kind'),
            fontWeight: by('wordWeight', 'kind'),
          },
        },
      },
    ],
  }
  return spec as unknown as Spec
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

function rowWords(engine: Result['job']['engine'], texts: Texts): Words[] {
  const at = (key: WordKey, y: number): Words => ({
    kind: 'row',
    words: say(texts, key),
    x: PLENUM_LEFT_PT - 8,
    y,
    align: 'right',
  })
  return [
    at('chart.hunt.runners', Y.runner + SEAT_PT / 2),
    at('chart.hunt.ports', Y.port + SEAT_PT / 2),
    at('chart.hunt.valves', Y.cylinder),
    ...columnsOf(engine).map(({ cylinder, middle }): Words => ({
      kind: 'cylinder',
      words: String(cylinder),
      x: middle,
      y: Y.cylinder,
      align: 'center',
    })),
    { kind: 'row', words: say(texts, 'chart.hunt.untried'), x: 1, y: Y.cylinder, align: 'left' },
  ]
}

type Way = Picture['ways'][number]
const way = (from: readonly [number, number], to: readonly [number, number]): Way => ({
  x: from[0],
  y: from[1],
  x2: to[0],
  y2: to[1],
})

/** The way of the air: along the path, down from the hoses, down through gasket and runners to the valves. */
function lines(cells: readonly Cell[]): Way[] {
  const of = (station: Station) => cells.filter(({ seat }) => seat.station === station)
  const middle = ({ left, width }: Cell) => left + width / 2
  const along = ['meter', 'duct', 'throttle', 'plenum'].flatMap((station) => of(station as Station))
  const hoses = of('hose')
  return [
    ...along
      .slice(1)
      .map((cell, i) =>
        way([along[i]!.left + along[i]!.width, Y.path + BOX_PT / 2], [cell.left, Y.path + BOX_PT / 2]),
      ),
    way([middle(hoses[0]!), Y.rail], [middle(hoses.at(-1)!), Y.rail]),
    ...hoses.map((cell) => way([middle(cell), Y.hoses + BOX_PT], [middle(cell), Y.rail])),
    way([middle(hoses[2]!), Y.rail], [middle(hoses[2]!), Y.path]),
    ...of('manifold').map((cell) => way([middle(cell), Y.path + BOX_PT], [middle(cell), Y.manifold])),
    ...of('runner').flatMap((cell) => [
      way([middle(cell), Y.manifold + BOX_PT], [middle(cell), Y.runner]),
      way([middle(cell), Y.runner + SEAT_PT], [middle(cell), Y.port]),
      way([middle(cell), Y.port + SEAT_PT], [middle(cell), Y.cylinder - 6]),
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
  picture.seats.push({
    x: left,
    y: top,
    x2: left + width,
    y2: top + height,
    kind: answered ? 'answered' : tried ? 'tried' : 'untried',
  })
  const small = words.length === 0
  words.forEach((line, i) =>
    picture.words.push({
      kind: 'seat',
      words: line,
      x: left + width / 2,
      y: top + 7 + i * (LINE_PT - 1.5),
      align: 'center',
    }),
  )
  const isNext = hunt.next !== null && lies(hunt.next.seat, seat)
  const marks = here.length
  const middle = left + width / 2
  here.forEach(({ place, number }, i) => {
    const x = middle + (i - (marks - 1) / 2) * (MARK_PT + 1)
    const y = small ? top + height / 2 : top + height - MARK_PT / 2 - 2
    picture.places.push({ number, state: place.state, x, y })
  })
  if (!isNext) return
  if (small) picture.next.push({ x: left - 5, y: top + height / 2 })
  else {
    picture.next.push({ x: left + 6, y: top + height - 8 })
    if (marks === 0)
      picture.words.push({
        kind: 'next',
        words: say(texts, 'chart.hunt.next'),
        x: left + 12,
        y: top + height - 8,
        align: 'left',
      })
  }
}

/** A place's mark: filled where the engine answered, hollow where it stayed silent, square for the rest. */
const LOOKS: Readonly<Record<Place['state'], { shape: string; fill: string; ink: string }>> = {
  answered: { shape: 'circle', fill: ACCENT, ink: PAPER },
  through: { shape: 'square', fill: PAPER, ink: INK },
  disputed: { shape: 'square', fill: PAPER, ink: INK },
  silent: { shape: 'circle', fill: PAPER, ink: INK },
  capped: { shape: 'square', fill: HAIR, ink: INK },
  unclear: { shape: 'square', fill: PAPER, ink: QUIET },
}

const ENTRY_GAP_PT = 3
const COLUMN_GAP_PT = 14

/** The numbers in words: place, what came of it, the tests. Two columns, read down. */
function placeList(hunt: LeakHuntRecord, texts: Texts) {
  const list: Pick<Picture, 'places' | 'words'> & { heightPt: number } = {
    places: [],
    words: [],
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
      list.places.push({
        number: column * perColumn + i + 1,
        state: place.state,
        x: x + MARK_PT / 2 + 1,
        y: y + MARK_PT / 2 + 1,
      })
      list.words.push(
        ...lines.map((line, k): Words => ({
          kind: 'place',
          words: line,
          x: x + MARK_PT + 5,
          y: y + MARK_PT / 2 + 1 + (LINE_PT + 1) * k,
          align: 'left',
        })),
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
