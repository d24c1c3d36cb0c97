/**
 * Evidence marks: short names under which a figure is found again in the report's tables and charts and in result.json.
 * `C1` is the first capture of job.yaml, `C1·5` its cylinder 5, `C1·5·12` event 12 of that cylinder as events.csv counts;
 * `P1` is the first pool of captures taken together, `P1·5` its cylinder 5;
 * `T3` is the third test of the log; `R1` is the first trace that tests name, `R1·12.0 s` an instant on its own clock.
 */
const DOT = '\u00b7'

export const captureMark = (index: number): string => `C${index + 1}`
export const poolMark = (index: number): string => `P${index + 1}`
export const cylinderMark = (capture: string, cylinder: number): string => `${capture}${DOT}${cylinder}`
export const testMark = (index: number): string => `T${index + 1}`

/** Several marks in few signs: all of up to three, else the first and the last. */
export const marksTogether = (marks: readonly string[]): string =>
  marks.length > 3 ? `${marks[0]}\u2026${marks.at(-1)}` : marks.join(', ')

/** Marks of tests by their place in the log, each once; empty for none. */
export const marksOfTests = (tests: readonly number[]): string =>
  [...new Set(tests)]
    .toSorted((a, b) => a - b)
    .map(testMark)
    .join(', ')

/** Marks of the traces that tests name, in the order in which the log first names them. */
export function traceMarks(
  tests: readonly { trace?: string | null | undefined }[],
): ReadonlyMap<string, string> {
  const files = [...new Set(tests.flatMap(({ trace }) => (trace ? [trace] : [])))]
  return new Map(files.map((file, i) => [file, `R${i + 1}`]))
}

/** The instant of a spray on its trace: `R1·12.0 s`, its beginning. */
export const instantMark = (trace: string, fromS: number): string =>
  `${trace}${DOT}${fromS.toFixed(1)}\u00a0s`

/** The trace's own part of an instant's mark. */
export const traceMarkOf = (instant: string): string => instant.split(DOT)[0]!
