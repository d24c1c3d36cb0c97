import { createHash } from 'node:crypto'
import {
  appendFileSync,
  closeSync,
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { attentionList, historyOf, type VehicleHistory } from '../fleet/attention.ts'
import { fleetCsvHead, fleetCsvLines } from '../fleet/fleet-csv.ts'
import { FLEET_JSON_END, fleetJsonHead, fleetJsonVehicle } from '../fleet/fleet-json.ts'
import { withRepeats, type HistoryRow } from '../fleet/repeats.ts'
import { withReviews } from '../fleet/reviews.ts'
import { count, emptyTally, type Tally } from '../fleet/tally.ts'
import { unitKey, vehicleKeys, vinOrPlateKey } from '../fleet/vehicle.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { sealPdf } from '../seal/seal-pdf.ts'
import type { Texts } from '../texts/messages.ts'
import { fleetRows, type SourcedRow, type ToldEnd } from './fleet-sources.ts'
import { asidePrefix, clearLeftovers, oldFolder } from '../files/leftovers.ts'
import { makeFolder } from '../files/make-folder.ts'
import { rowSorter, type RowSorter } from './sort-rows.ts'
import { readRegularText } from '../files/regular-file.ts'

export interface FleetSettings {
  out: string
  page: 'A4' | 'LETTER'
  version: string
  texts: Texts
  /** The shop's (hex): only what it signed counts as signed. */
  publicKey?: string
}

/** Most double work orders named. */
const MOST_NAMED = 100
/** Rows written at a time. */
const WRITTEN_AT_ONCE = 500

type KeyedRow = SourcedRow['row'] & { vehicle: string }

/**
 * Rolls many jobs up into fleet.csv, fleet.json and fleet.pdf. Rows are sorted on disk, so memory does not grow with the
 * number of jobs, and the bytes do not depend on the order or the split they came in.
 *
 * @returns counts of the fleet
 * @throws JobError `duplicate-work-order` with both places; or as `fleetRows` does; `output-exists` for a folder that is no fleet
 */
export async function runFleet(
  paths: readonly string[],
  { out, page, version, texts, publicKey }: FleetSettings,
): Promise<Tally> {
  const parent = dirname(out)
  await makeFolder(parent)
  await clearLeftovers(parent, 'dead')
  refuseForeign(out)
  const aside = mkdtempSync(join(parent, asidePrefix()))
  try {
    const fresh = join(aside, 'new')
    mkdirSync(fresh)
    const byVehicle = await gather(fleetRows(paths, publicKey), aside)
    const { tally, attention, byWorkOrder } = tell(byVehicle, aside)
    writeCsv(join(fresh, 'fleet.csv'), byWorkOrder)
    await writeJson(join(fresh, 'fleet.json'), { tally, version, vehicles: join(aside, 'vehicles') })
    const digests = {
      csv: await digestOf(join(fresh, 'fleet.csv')),
      json: await digestOf(join(fresh, 'fleet.json')),
    }
    const { renderFleet } = await import('../fleet/render-fleet.ts')
    writeFileSync(
      join(fresh, 'fleet.pdf'),
      sealPdf(await renderFleet({ tally, attention, digests, texts, page, version })),
    )
    swap(fresh, out, aside)
    return tally
  } finally {
    rmSync(aside, { recursive: true, force: true })
  }
}

/** Reads every job, settles which vehicle it is of, and sorts them by vehicle and date. */
async function gather(jobs: ReturnType<typeof fleetRows>, aside: string): Promise<RowSorter<KeyedRow>> {
  const byUnit = rowSorter<SourcedRow['row']>(aside, 'unit')
  const sources = rowSorter<{ workOrder: string; from: string }>(aside, 'sources')
  const ends = rowSorter<ToldEnd>(aside, 'ends')
  for await (const read of jobs) {
    if ('ended' in read) {
      ends.add(read.folder, read)
      continue
    }
    byUnit.add(unitKey(read.row), read.row)
    sources.add(read.row.workOrder, { workOrder: read.row.workOrder, from: read.from })
  }
  refuseDoubles(sources)
  for (const row of failures(ends)) byUnit.add(unitKey(row), row)
  const byVehicle = rowSorter<KeyedRow>(aside, 'vehicle')
  const keep = (row: SourcedRow['row'], vehicle: string) =>
    byVehicle.add(`${vehicle}\0${row.date}\0${row.workOrder}`, { ...row, vehicle })
  for (const group of groups(byUnit.sorted(), unitKey)) {
    if (unitKey(group[0]!) === '') group.forEach((row) => keep(row, vinOrPlateKey(row)))
    else vehicleKeys(group).forEach((vehicle, i) => keep(group[i]!, vehicle))
  }
  return byVehicle
}

/**
 * One row a folder that never came to a report, however often it was tried. One that failed and was reported by another
 * call has its output, which has its row already.
 */
function* failures(ends: RowSorter<ToldEnd>): Generator<SourcedRow['row']> {
  for (const group of groups(ends.sorted(), ({ folder }) => folder)) {
    const failed = group.flatMap(({ ended }) => (ended === 'reported' ? [] : [ended]))
    const worst = failed.find(({ state }) => state === 'invalid') ?? failed[0]
    if (worst !== undefined && failed.length === group.length) yield worst
  }
}

/** Neighbours of one key together; those of an empty key one by one, since there is no end to them. */
function* groups<T>(rows: Iterable<T>, keyOf: (row: T) => string): Generator<T[]> {
  let group: T[] = []
  let key = ''
  for (const row of rows) {
    const next = keyOf(row)
    if (group.length > 0 && (next !== key || key === '')) {
      yield group
      group = []
    }
    key = next
    group.push(row)
  }
  if (group.length > 0) yield group
}

function refuseDoubles(sources: RowSorter<{ workOrder: string; from: string }>): void {
  const doubles: Problem[] = []
  for (const group of groups(sources.sorted(), (source) => source.workOrder)) {
    const [first, ...others] = group.map(({ from }) => from).sort()
    for (const from of others) {
      if (doubles.length < MOST_NAMED)
        doubles.push(
          problem('duplicate-work-order', { file: from }, { workOrder: group[0]!.workOrder, other: first! }),
        )
    }
  }
  if (doubles.length > 0) throw new JobError(doubles)
}

interface Told {
  tally: Tally
  attention: readonly VehicleHistory[]
  byWorkOrder: RowSorter<HistoryRow>
}

/** Counts every job, marks repeat faults, and writes the list of vehicles aside. */
function tell(byVehicle: RowSorter<KeyedRow>, aside: string): Told {
  const tally = emptyTally()
  const attention = attentionList()
  const byWorkOrder = rowSorter<HistoryRow>(aside, 'order')
  const list = join(aside, 'vehicles')
  writeFileSync(list, '')
  let lines = ''
  let any = false
  for (const group of groups(byVehicle.sorted(), (row) => row.vehicle)) {
    const history =
      group[0]!.vehicle === ''
        ? group.flatMap((row) => withReviews([{ ...row, repeat: null }]))
        : withReviews(withRepeats(group))
    for (const row of history) {
      count(tally, row)
      byWorkOrder.add(`${row.workOrder}\0${row.state}`, row)
    }
    if (group[0]!.vehicle === '') continue
    const told = historyOf(history)
    attention.offer(told)
    lines += `${any ? ',' : ''}\n    ${fleetJsonVehicle(told, history)}`
    any = true
    if (lines.length > 2 ** 16) {
      appendFileSync(list, lines)
      lines = ''
    }
  }
  appendFileSync(list, lines)
  return { tally, attention: attention.list(), byWorkOrder }
}

function writeCsv(path: string, rows: RowSorter<HistoryRow>): void {
  const file = openSync(path, 'w')
  writeFileSync(file, fleetCsvHead())
  let held: HistoryRow[] = []
  const flush = () => {
    if (held.length > 0) writeFileSync(file, fleetCsvLines(held))
    held = []
  }
  for (const row of rows.sorted()) {
    held.push(row)
    if (held.length === WRITTEN_AT_ONCE) flush()
  }
  flush()
  closeSync(file)
}

async function writeJson(
  path: string,
  { tally, version, vehicles }: { tally: Tally; version: string; vehicles: string },
): Promise<void> {
  writeFileSync(path, fleetJsonHead(tally, { name: 'burnline', version }))
  await pipeline(createReadStream(vehicles), createWriteStream(path, { flags: 'a' }))
  appendFileSync(path, FLEET_JSON_END)
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256')
  await pipeline(createReadStream(path), hash)
  return hash.digest('hex')
}

/** Only an earlier fleet may be replaced. */
function refuseForeign(out: string): void {
  try {
    if (
      /^\{\n {2}"format": 1,\n {2}"program": \{\n {4}"name": "burnline"/.test(
        readRegularText(join(out, 'fleet.json')).slice(0, 200),
      )
    )
      return
  } catch (cause) {
    // No fleet there: free only where nothing is.
    if (['ENOENT', 'ENOTDIR'].includes((cause as NodeJS.ErrnoException).code ?? '') && isFree(out)) return
  }
  throw new JobError([problem('output-exists', { file: out }, { path: out })])
}

/** Nothing there, or an empty folder. */
function isFree(out: string): boolean {
  return !existsSync(out) || (statSync(out).isDirectory() && readdirSync(out).length === 0)
}

/** Puts the new folder in place; a run killed between the two renames leaves the old one where the next puts it back. */
function swap(fresh: string, out: string, aside: string): void {
  const old = join(aside, oldFolder(1))
  mkdirSync(old)
  try {
    renameSync(out, join(old, basename(out)))
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause
  }
  renameSync(fresh, out)
}
