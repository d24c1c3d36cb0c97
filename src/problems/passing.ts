/**
 * Codes of the system for what it is short of, or busy with, for now: open files, memory, threads, a slow disk. The same
 * call may go through later, and nothing is wrong with the job or the program.
 */
export const PASSING: ReadonlySet<string> = new Set([
  'EAGAIN',
  'EBUSY',
  'EMFILE',
  'ENFILE',
  'ENOMEM',
  'ESTALE',
  'ETIMEDOUT',
])
