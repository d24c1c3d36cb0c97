/** Prints a value for machines: JSON on standard output, one document a call. */
export const printJson = (value: unknown): void => {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`)
}
