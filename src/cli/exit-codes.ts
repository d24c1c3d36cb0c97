/** What the program's exit code says (the numbers of sysexits.h). */
export const EXIT = {
  done: 0,
  /** The command line is wrong. */
  usage: 64,
  /** At least one job is invalid; the others were reported. */
  invalidJob: 65,
  /** No such input folder or file. */
  noInput: 66,
  /** A fault of ours. */
  internal: 70,
  /** The output could not be written. */
  cannotWrite: 73,
} as const
