/** Units a temperature can be logged in. */
export const TEMPERATURE_UNITS = ['°C', '°F'] as const
type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number]

export const isTemperatureUnit = (unit: string): unit is TemperatureUnit =>
  (TEMPERATURE_UNITS as readonly string[]).includes(unit)

/** A temperature in degrees Celsius. @source SI Brochure 9th edition, 2.3.1, and the definition of degrees Fahrenheit: 32 °F is 0 °C, 180 °F make 100 °C */
export const toCelsius = (value: number, unit: TemperatureUnit): number =>
  unit === '°F' ? ((value - 32) * 5) / 9 : value
