/** What the program's exit code says (the numbers of sysexits.h, and 128 + SIGINT). */
export const EXIT = {
  done: 0,
  /** `prove`: an error is beyond its limit. */
  proofFails: 1,
  /** `report --fail-on`: an engine is in the state of the rule. */
  ruleMet: 1,
  /** The command line is wrong. */
  usage: 64,
  /** At least one job is invalid; the others were reported. */
  invalidJob: 65,
  /** No such input folder or file. */
  noInput: 66,
  /** This Node is too old to run the program. */
  unavailable: 69,
  /** A fault of ours. */
  internal: 70,
  /** The output could not be written. */
  cannotWrite: 73,
  /** The same call later goes on or may succeed: it was stopped by SIGTERM, or an input was being written, or the system was short of something. */
  tryAgain: 75,
  /** Stopped with Ctrl-C before every job was done. */
  interrupted: 130,
} as const
