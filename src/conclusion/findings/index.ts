import { matterOf, type JobFinding } from '../finding.ts'
import type { Seen } from '../seen.ts'
import { findingKinds, type FindingKind } from '../words.ts'
import { burnTime } from './burn-time.ts'
import { circuit } from './circuit.ts'
import { code } from './code.ts'
import { compression } from './compression.ts'
import { firingVoltage } from './firing-voltage.ts'
import { fuelPressure } from './fuel-pressure.ts'
import { gas } from './gas.ts'
import { idleSpeed } from './idle-speed.ts'
import { leak } from './leak.ts'
import { misfire } from './misfire.ts'
import { mixture } from './mixture.ts'
import { oscillation } from './oscillation.ts'
import { part } from './part.ts'
import type { FindingReader } from './reader.ts'
import { trim } from './trim.ts'
import { vacuum } from './vacuum.ts'

/** Every kind of finding, one file each. */
export const FINDINGS: Readonly<Record<FindingKind, FindingReader>> = {
  mixture,
  circuit,
  misfire,
  'firing-voltage': firingVoltage,
  'burn-time': burnTime,
  oscillation,
  compression,
  'fuel-pressure': fuelPressure,
  trim,
  gas,
  vacuum,
  leak,
  code,
  part,
  'idle-speed': idleSpeed,
}

/**
 * Everything found, each once: of a reading taken again in the same state and condition the last one stands. In a fixed
 * order (state, kind, order, place), whatever the order of rows, captures and cylinders.
 */
export function findAll(seen: Seen): JobFinding[] {
  const all = findingKinds.flatMap((kind) => {
    const found = FINDINGS[kind].read(seen)
    return FINDINGS[kind].byCylinder ? found : lastRead(found)
  })
  return all.toSorted((a, b) => (sortKey(a) < sortKey(b) ? -1 : 1))
}

/** Tests come in the order of time, so the last of a matter is the newest. */
function lastRead(found: readonly JobFinding[]): JobFinding[] {
  const newest = new Map<string, number>()
  const key = (f: JobFinding) => `${f.state} ${matterOf(f)}`
  const at = (f: JobFinding) => Math.max(-1, ...f.tests)
  for (const f of found) newest.set(key(f), Math.max(newest.get(key(f)) ?? -1, at(f)))
  return found.filter((f) => at(f) === newest.get(key(f)))
}

const RANK: Readonly<Record<JobFinding['order'], number>> = {
  'out of order': 0,
  unsure: 1,
  'not known': 2,
  'in order': 3,
}

const sortKey = (f: JobFinding): string =>
  JSON.stringify([
    f.state === 'as found' ? 0 : 1,
    RANK[f.order],
    String(findingKinds.indexOf(f.kind)).padStart(2, '0'),
    f.condition === 'idle' ? '' : (f.condition ?? ''),
    f.where.bank ?? '',
    f.where.cylinders.map((c) => String(c).padStart(2, '0')),
    f.where.place ?? '',
    f.reading ?? '',
    f.direction,
  ])
