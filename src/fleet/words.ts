import { monthName } from '../texts/dates.ts'
import { say } from '../texts/say.ts'
import type { Texts } from '../texts/messages.ts'
import type { VehicleKey } from './vehicle.ts'

/** Days, months and vehicles as the printed report writes them; fleet.csv and fleet.json keep one form for every reader. */

const partsOf = (iso: string) => ({ year: iso.slice(0, 4), month: iso.slice(5, 7), day: iso.slice(8, 10) })

/** An ISO date in few signs, for tables; a dash where there is none. */
export const dayWords = (texts: Texts, date: string): string =>
  date === '' ? '\u2013' : say(texts, 'fleet.day', partsOf(date))

/** "March 2024" of an ISO month. */
export const monthWords = (texts: Texts, month: string): string =>
  say(texts, 'fleet.month', { month: monthName(texts, month.slice(5, 7)), year: month.slice(0, 4) })

/** A period in few signs: an ISO month, a quarter ("2024 Q1") or a year; "no date" for none. */
export function periodWords(texts: Texts, period: string): string {
  if (period === '') return say(texts, 'fleet.no-date')
  if (period.length === 4) return period
  const quarter = /^(\d{4}) Q(\d)$/.exec(period)
  return quarter
    ? say(texts, 'fleet.quarter', { year: quarter[1]!, quarter: quarter[2]! })
    : say(texts, 'fleet.short-month', partsOf(period))
}

const NAMES = { VIN: 'fleet.vin', unit: 'fleet.unit', plate: 'fleet.plate' } as const

/** The reader's words for a vehicle's key. */
export function vehicleName(texts: Texts, key: VehicleKey): string {
  const [, kind, mark] = /^(VIN|unit|plate) (.*)$/s.exec(key) ?? []
  return kind === undefined ? key : say(texts, NAMES[kind as keyof typeof NAMES], { mark: mark! })
}

/** The same where room is scarce: a VIN needs no word before it. */
export const shortVehicleName = (texts: Texts, key: VehicleKey): string =>
  key.startsWith('VIN ') ? key.slice('VIN '.length) : vehicleName(texts, key)
