const PARTS = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?(Z|[+-]\d{2}:\d{2})?$/

/**
 * An ISO 8601 date and time as seconds since 1970 in universal time, for ordering. A time without a zone is taken as
 * universal, never as the machine's own. @throws RangeError for other text: the row was checked before.
 */
export function momentS(text: string): number {
  const found = PARTS.exec(text)
  if (!found) throw new RangeError(`not a date and time: ${text}`)
  const [year, month, day, hour, minute] = found.slice(1, 6).map(Number) as [
    number,
    number,
    number,
    number,
    number,
  ]
  return Date.UTC(year, month - 1, day, hour, minute) / 1000 + Number(found[6] ?? 0) - zoneS(found[7])
}

function zoneS(zone: string | undefined): number {
  if (zone === undefined || zone === 'Z') return 0
  const sign = zone.startsWith('-') ? -1 : 1
  return sign * (Number(zone.slice(1, 3)) * 3600 + Number(zone.slice(4, 6)) * 60)
}
