const ASCII = { comma: 0x2c, point: 0x2e, zero: 0x30, L: 0x4c, M: 0x4d } as const
/** "M1234.5,1234.5L1234.5,1234.5": the most one point of a line can take. */
const BYTES_A_POINT = 30

/**
 * Writes an SVG path of absolute moves and lines, in tenths of a point: half a dot of a 300 dpi printer.
 * Letters go straight into bytes, since joining a hundred thousand small strings costs more than everything else in a chart.
 * Coordinates lie inside a page: 0 to 9999 pt.
 */
export class PathPen {
  readonly #bytes: Uint8Array
  #length = 0

  constructor(points: number) {
    this.#bytes = new Uint8Array(points * BYTES_A_POINT)
  }

  moveTo(x: number, y: number): void {
    this.#command(ASCII.M, x, y)
  }

  lineTo(x: number, y: number): void {
    this.#command(ASCII.L, x, y)
  }

  path(): string {
    return Buffer.from(this.#bytes.buffer, 0, this.#length).toString('latin1')
  }

  #command(letter: number, x: number, y: number): void {
    this.#bytes[this.#length++] = letter
    this.#number(x)
    this.#bytes[this.#length++] = ASCII.comma
    this.#number(y)
  }

  #number(value: number): void {
    const tenths = Math.round(value * 10)
    const whole = Math.trunc(tenths / 10)
    for (
      let power = whole >= 1000 ? 1000 : whole >= 100 ? 100 : whole >= 10 ? 10 : 1;
      power >= 1;
      power /= 10
    ) {
      this.#bytes[this.#length++] = ASCII.zero + (Math.trunc(whole / power) % 10)
    }
    const rest = tenths - whole * 10
    if (rest === 0) return
    this.#bytes[this.#length++] = ASCII.point
    this.#bytes[this.#length++] = ASCII.zero + rest
  }
}
