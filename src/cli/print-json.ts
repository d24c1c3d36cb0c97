import { CONTROL_IN_JSON } from '../problems/control-characters.ts'

/** JSON text that no terminal takes for anything but text: what JSON leaves as it is and a terminal obeys is written as its code. */
export const jsonText = (value: unknown, indent?: number): string =>
  JSON.stringify(value, null, indent).replace(
    CONTROL_IN_JSON,
    (c) => `\\u${c.codePointAt(0)!.toString(16).padStart(4, '0')}`,
  )

/** Prints a value for machines: JSON on standard output, one document a call. */
export const printJson = (value: unknown): void => {
  process.stdout.write(`${jsonText(value, 2)}\n`)
}
