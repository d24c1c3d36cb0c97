import { visible } from '../problems/control-characters.ts'

/*
 * One line each, whatever is in it: a name that comes from a file or a folder can neither begin another line nor steer
 * the terminal.
 */

/** Prints a line of a call's result. */
export const printLine = (line: string): void => {
  process.stdout.write(`${visible(line)}\n`)
}

/** Tells whoever called of something beside the result. */
export const tellLine = (line: string): void => {
  process.stderr.write(`${visible(line)}\n`)
}
